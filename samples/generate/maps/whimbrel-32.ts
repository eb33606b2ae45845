import type { FieldMap } from "../../../src/model/index.ts";
import { choice, list, numbers, sampleMap, value, values } from "./rules.ts";

const maybe = { absent: [""] } as const;
const samples = { as: { kind: "time", unit: "samples", decimals: 0 } } as const;
const bandwidth = { as: { kind: "width", unit: "octaves", decimals: 6, round: 2 }, absent: [""] } as const;
const percent = { as: { kind: "level", unit: "percent", decimals: 4, round: 2 } } as const;
const yesNo = { as: choice({ JA: true, NO: false }) } as const;
const off = { as: choice({ BYP: false }), absent: [""] } as const;

const byId = { within: "root", where: [{ at: "/of", field: "id" }] } as const;
const inSet = [
  { at: "/set", ancestor: 2, field: "id" },
  { at: "/strip", ancestor: 1, field: "channelId" },
] as const;

const filterRules = [
  ...values("", "/", ["id", "kind", ["frequencyHz", "hz"]]),
  ...values("", "/", [["gainDb", "gain"]], maybe),
  value("q", "/octaves", bandwidth),
  ...values("", "/", ["slope", "order"], maybe),
  value("enabled", "/state", off),
];

/** The export of the Whimbrel 32: one table a kind of thing, semicolons, decimal commas, Latin-1, delays in samples. */
export const whimbrel32Map: FieldMap = sampleMap({
  id: "whimbrel-32-table",
  label: "Whimbrel 32, settings as tables",
  profileId: "whimbrel-32",
  notes: "Invented data. Delays in samples, widths in octaves, shares of a mix in percent.",
  source: { kind: "table", encoding: "latin-1", delimiter: ";", header: "by-mark", mark: "#" },
  decimal: ",",
  rules: [
    ...values("unit.", "/UNIT/0/", [
      "profileId",
      "profileRevision",
      "serial",
      "firmware",
      "sampleRateHz",
      "label",
    ]),
    ...values("screen.", "/ROOM/0/", ["siteId", "siteName", "screenId", "screenName", "format", "seats"]),
    ...values("screen.", "/ROOM/0/", ["temperatureC", "videoLatencyMs"]),
    ...values("screen.geometry.", "/ROOM/0/", ["lengthM", "widthM", "heightM"]),
    value("screen.notes", "/ROOM/0/remark", maybe),
    value("notes", "/UNIT/0/remark", maybe),
    list("sources", "$.SRC[*]", [
      ...values("", "/", ["id", "label", "kind", "assignment", "latencyMs"]),
      list(
        "channels",
        "$.IN[*]",
        [
          ...values("", "/", ["id", "position", ["connectorId", "jack"]]),
          value("carries", "/carries", maybe),
          value("gainDb", "/trim"),
        ],
        byId,
      ),
    ]),
    list("channels", "$.CH[*]", [
      ...values("", "/", ["id", "label", ["levelDb", "level"]]),
      value("delayMs", "/samples", samples),
      value("mute", "/mute", yesNo),
    ]),
    list("equalizations", "$.SET[*]", [
      ...values("", "/", ["id", "label"]),
      list(
        "channels",
        "$.STRIP[*]",
        [
          value("channelId", "/strip"),
          list("parametric", "$.BELL[*]", filterRules, { within: "root", where: inSet, optional: true }),
        ],
        byId,
      ),
    ]),
    list("presets", "$.PRE[*]", [
      ...values("", "/", [
        "id",
        "slot",
        "label",
        ["sourceId", "source"],
        "format",
        ["equalizationId", "set"],
      ]),
      value("levelDb", "/level"),
      value("delayMs", "/samples", samples),
      value("faderMark", "/fader", maybe),
      value("reason", "/reason", maybe),
      list(
        "routing",
        "$.X[*]",
        [
          ...values("", "/", [["sourceChannelId", "from"], ["channelId", "to"], "id"]),
          value("gainDb", "/share", percent),
        ],
        byId,
      ),
    ]),
    list("loudspeakers", "$.SPK[*]", [
      ...values("", "/", ["id", "label", "placement", "drive", "boxes"]),
      value("distanceM", "/metres", maybe),
      list(
        "ways",
        "$.WAY[*]",
        [
          ...values("", "/", ["id", "band"]),
          ...values(
            "",
            "/",
            ["safeHighPassHz", "safeHighPassOrder", "ratedPowerW", "impedanceOhm", "sensitivityDb"],
            maybe,
          ),
        ],
        byId,
      ),
    ]),
    list("outputs", "$.OUT[*]", [
      ...values("", "/", ["id", "label", ["connectorId", "jack"], ["feeds.kind", "feeds"]]),
      value("feeds.loudspeakerId", "/speaker", maybe),
      value("feeds.wayId", "/way", maybe),
      list("mix", "$.MIX[*]", [value("channelId", "/channel"), value("gainDb", "/share", percent)], byId),
      ...values(
        "highPass.",
        "/hp-",
        ["family", "order", ["frequencyHz", "hz"], ["normalization", "norm"]],
        maybe,
      ),
      ...values(
        "lowPass.",
        "/lp-",
        ["family", "order", ["frequencyHz", "hz"], ["normalization", "norm"]],
        maybe,
      ),
      list("filters", "$.DRV[*]", filterRules, byId),
      value("gainDb", "/gain"),
      value("delayMs", "/samples", samples),
      value("polarity", "/polarity", { as: choice({ POS: "normal", NEG: "inverted" }) }),
      value("limiter.enabled", "/lim-on", { as: choice({ JA: true, NO: false }), absent: [""] }),
      ...values(
        "limiter.",
        "/lim-",
        [
          ["thresholdDbfs", "dbfs"],
          ["attackMs", "attack"],
          ["releaseMs", "release"],
        ],
        maybe,
      ),
      value("mute", "/mute", yesNo),
    ]),
    ...values("operation.", "/BOOTH/0/", [["faderMark", "fader"]]),
    ...values("operation.", "/BOOTH/0/", [["startPresetId", "start"]], maybe),
    value("operation.emergencyMute.enabled", "/ALARM/0/on", yesNo),
    ...values("operation.emergencyMute.", "/ALARM/0/", [["connectorId", "jack"], "activeWhen", "release"]),
    ...values("operation.nonSync.", "/BOOTH/0/interval-", [
      ["sourceId", "source"],
      ["presetId", "preset"],
    ]),
    ...values("operation.paging.", "/BOOTH/0/paging-", [
      ["sourceId", "source"],
      ["presetId", "preset"],
      ["programDuckDb", "duck"],
    ]),
    ...values("operation.boothMonitor.", "/BOOTH/0/monitor-", [
      ["outputId", "output"],
      ["levelDb", "level"],
    ]),
    ...values("operation.hearingImpaired.", "/BOOTH/0/hearing-", [
      ["outputId", "output"],
      ["levelDb", "level"],
      ["whenAbsent", "else"],
    ]),
    ...values("operation.narration.", "/BOOTH/0/narration-", [
      ["outputId", "output"],
      ["levelDb", "level"],
    ]),
    list("automation", "$.CUE[*]", [
      ...values("", "/", ["id", "label", ["trigger.kind", "on"], ["action.kind", "do"]]),
      ...values("trigger.", "/", [["connectorId", "jack"], "edge", "text", ["interfaceId", "port"]], maybe),
      ...values(
        "action.",
        "/",
        [
          ["presetId", "preset"],
          ["faderMark", "fader"],
          ["sourceId", "source"],
        ],
        maybe,
      ),
      value("waitMs", "/wait", maybe),
    ]),
    value("network.hostname", "/UNIT/0/hostname"),
    list("network.interfaces", "$.PORT[*]", [
      ...values("", "/", ["id", "label", "purpose", "mode"]),
      ...values("", "/", ["address", "prefixLength", "gateway"], maybe),
    ]),
    ...values("calibration.", "/MEAS/0/", ["date", "by", ["equalizationId", "set"]]),
    value("calibration.notes", "/MEAS/0/remark", maybe),
    list("calibration.microphonePositions", "$.MIC[*]", values("", "/", ["id", "xM", "yM", "zM"])),
    list("calibration.channels", "$.TONE[*]", [
      ...values("", "/", [
        ["channelId", "channel"],
        ["levelDbC", "dbc"],
      ]),
      value("inBandGainDb", "/in-band", maybe),
      numbers("thirdOctavesDb", "/thirds", " ", { optional: true }),
    ]),
  ],
  ignore: [{ each: "$.LAMP", reason: "Lamps of the front panel: no part of the sound." }],
});
