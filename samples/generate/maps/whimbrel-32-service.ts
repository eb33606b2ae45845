import type { FieldMap } from "../../../src/model/index.ts";
import { choice, list, numbersOfEach, sampleMap, segment, value, values } from "./rules.ts";

const maybe = { optional: true } as const;
const frames = { as: { kind: "time", unit: "frames" } } as const;
const ratio = { as: { kind: "level", unit: "ratio", round: 2 } } as const;
const mute = { as: choice({ true: false, false: true }) } as const;

const bellRules = [
  ...values("", "/", ["id", "kind", ["frequencyHz", "hz"]]),
  ...values("", "/", ["gainDb", "q", "slope", "order", ["enabled", "in"]], maybe),
];

function cornerRules(field: string, at: string) {
  const fields = ["family", "order", ["frequencyHz", "hz"], ["normalization", "norm"]] as const;
  return values(`${field}.`, `${at}/`, fields, maybe);
}

/** The service file of the Whimbrel 32: JSON in UTF-16; what is not in use is not in the file. */
export const whimbrel32ServiceMap: FieldMap = sampleMap({
  id: "whimbrel-32-service",
  label: "Whimbrel 32, service file",
  profileId: "whimbrel-32",
  notes:
    "Invented data. Delays in film frames, shares of a mix as ratios, distances in feet, air in Fahrenheit.",
  source: { kind: "json", encoding: "utf-16le" },
  rules: [
    ...values("unit.", "/whimbrel/", [
      ["profileId", "type"],
      ["profileRevision", "issue"],
      ["serial", "no"],
      ["firmware", "software"],
      ["label", "name"],
    ]),
    value("unit.sampleRateHz", "/whimbrel/clock", { as: { kind: "frequency", unit: "kHz" } }),
    value("notes", "/whimbrel/remark", maybe),
    ...values("screen.", "/hall/", [
      ["siteId", "site"],
      "siteName",
      ["screenId", "hall"],
      ["screenName", "hallName"],
      "format",
      "seats",
    ]),
    value("screen.temperatureC", "/hall/airF", {
      as: { kind: "number", factor: 5 / 9, offset: -160 / 9, round: 2 },
    }),
    value("screen.videoLatencyMs", "/hall/pictureFrames", frames),
    ...values("screen.geometry.", "/hall/size/", [
      ["lengthM", "0"],
      ["widthM", "1"],
      ["heightM", "2"],
    ]),
    value("screen.notes", "/hall/remark", maybe),
    list("sources", "$.sources.*", [
      segment("id"),
      ...values("", "/", [["label", "called"], "kind", ["assignment", "rule"], ["latencyMs", "lateMs"]]),
      list("channels", "$.plugs.*", [
        segment("id"),
        ...values("", "/", [
          ["position", "no"],
          ["connectorId", "plug"],
          ["gainDb", "trim"],
        ]),
        value("carries", "/for", maybe),
      ]),
    ]),
    list("channels", "$.program[*]", [
      ...values("", "/", [
        ["id", "ch"],
        ["label", "name"],
        ["levelDb", "dB"],
      ]),
      value("delayMs", "/frames", frames),
      value("mute", "/live", mute),
    ]),
    list("equalizations", "$.curves[*]", [
      ...values("", "/", ["id", ["label", "name"]]),
      list("channels", "$.strips.*", [
        segment("channelId"),
        list("parametric", "$.bells[*]", bellRules, { optional: true }),
      ]),
    ]),
    list("presets", "$.presets.*", [
      { kind: "value", field: "slot", segment: 0 },
      ...values("", "/", [
        "id",
        ["label", "name"],
        ["sourceId", "from"],
        ["format", "as"],
        ["equalizationId", "curve"],
        ["levelDb", "dB"],
      ]),
      value("delayMs", "/frames", frames),
      ...values(
        "",
        "/",
        [
          ["faderMark", "fader"],
          ["reason", "why"],
        ],
        maybe,
      ),
      list("routing", "$.cross[*]", [
        ...values("", "/", ["id", ["sourceChannelId", "in"], ["channelId", "to"]]),
        value("gainDb", "/times", ratio),
      ]),
    ]),
    list("loudspeakers", "$.speakers[*]", [
      ...values("", "/", ["id", ["label", "name"], ["placement", "where"], "drive", "boxes"]),
      value("distanceM", "/feet", {
        as: { kind: "length", unit: "ft", decimals: 3, round: 2 },
        optional: true,
      }),
      list("ways", "$.ways[*]", [
        ...values("", "/", ["id", "band"]),
        ...values(
          "",
          "/",
          [
            ["safeHighPassHz", "safeHz"],
            ["safeHighPassOrder", "safeOrder"],
            ["ratedPowerW", "watts"],
            ["impedanceOhm", "ohms"],
            ["sensitivityDb", "sensitivity"],
          ],
          maybe,
        ),
      ]),
    ]),
    list("outputs", "$.outputs[*]", [
      ...values("", "/", ["id", ["label", "name"], ["gainDb", "dB"]]),
      value("connectorId", "/plug", { as: { kind: "template", text: "out-{}", pad: 2, offset: 1 } }),
      value("feeds.kind", "/feeds/kind"),
      ...values(
        "feeds.",
        "/feeds/",
        [
          ["loudspeakerId", "speaker"],
          ["wayId", "way"],
        ],
        maybe,
      ),
      list("mix", "$.mix[*]", [value("channelId", "/ch"), value("gainDb", "/times", ratio)]),
      ...cornerRules("highPass", "/above"),
      ...cornerRules("lowPass", "/below"),
      list("filters", "$.bells[*]", bellRules),
      value("delayMs", "/frames", frames),
      value("polarity", "/turned", { as: choice({ true: "inverted", false: "normal" }) }),
      ...values(
        "limiter.",
        "/limit/",
        [
          ["enabled", "on"],
          ["thresholdDbfs", "at"],
          ["attackMs", "attack"],
          ["releaseMs", "release"],
        ],
        maybe,
      ),
      value("mute", "/live", mute),
    ]),
    value("operation.faderMark", "/booth/fader"),
    value("operation.startPresetId", "/booth/start", maybe),
    ...values(
      "operation.emergencyMute.",
      "/booth/alarm/",
      ["enabled", "connectorId", "activeWhen", "release"],
      maybe,
    ),
    ...values("operation.nonSync.", "/booth/interval/", ["sourceId", "presetId"], maybe),
    ...values("operation.paging.", "/booth/paging/", ["sourceId", "presetId", "programDuckDb"], maybe),
    ...values("operation.boothMonitor.", "/booth/monitor/", ["outputId", "levelDb"], maybe),
    ...values("operation.hearingImpaired.", "/booth/hearing/", ["outputId", "levelDb", "whenAbsent"], maybe),
    ...values("operation.narration.", "/booth/narration/", ["outputId", "levelDb"], maybe),
    list("automation", "$.cues[*]", [
      ...values("", "/", ["id", "label"]),
      value("trigger.kind", "/when/kind"),
      ...values("trigger.", "/when/", ["connectorId", "edge", "text", "interfaceId"], maybe),
      value("action.kind", "/do/kind"),
      ...values("action.", "/do/", ["presetId", "faderMark", "sourceId"], maybe),
      value("waitMs", "/waitMs", maybe),
    ]),
    value("network.hostname", "/whimbrel/host"),
    list("network.interfaces", "$.ports.*", [
      segment("id"),
      ...values("", "/", ["label", "purpose", "mode"]),
      ...values("", "/", ["address", ["prefixLength", "bits"], "gateway"], maybe),
    ]),
    ...values("calibration.", "/measured/", ["date", "by", ["equalizationId", "curve"]]),
    value("calibration.notes", "/measured/remark", maybe),
    list("calibration.microphonePositions", "$.measured.places[*]", [
      value("id", "/id"),
      ...values("", "/xyz/", [
        ["xM", "0"],
        ["yM", "1"],
        ["zM", "2"],
      ]),
    ]),
    list("calibration.channels", "$.measured.tones.*", [
      segment("channelId"),
      value("levelDbC", "/dBC"),
      value("inBandGainDb", "/inBand", maybe),
      numbersOfEach("thirdOctavesDb", "$.thirds[*]", { optional: true }),
    ]),
  ],
  ignore: [
    { each: "$.whimbrel.lamp", reason: "Lamps of the front panel: no part of the sound." },
    { each: "$.whimbrel.uptime", reason: "How long the unit has been on." },
  ],
});
