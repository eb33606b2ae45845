import type { FieldMap } from "../../../src/model/index.ts";
import { choice, list, numbers, sampleMap, value, values } from "./rules.ts";

const tenths = { as: { kind: "level", unit: "tenth-dB", decimals: 0 } } as const;
const maybeTenths = { ...tenths, absent: ["none"] } as const;
const microseconds = { as: { kind: "time", unit: "us", decimals: 0 } } as const;
const maybe = { absent: ["none"] } as const;
const switchedOn = { as: choice({ "1": true, "0": false }) } as const;
const mutes = { as: choice({ "0": true, "1": false }) } as const;
const bypass = { as: choice({ yes: false }), absent: ["no"] } as const;

const filterRules = [
  ...values("", "/@", ["id", ["kind", "type"], ["frequencyHz", "hz"]]),
  value("gainDb", "/@gain", maybeTenths),
  ...values("", "/@", ["q", "slope", "order"], maybe),
  value("enabled", "/@bypass", bypass),
];

function crossoverRules(field: string, at: string) {
  return values(`${field}.`, `${at}/@`, ["family", "order", ["frequencyHz", "hz"], "normalization"], maybe);
}

/** The export of the Skarn 30: XML with attributes, levels in tenths of a decibel, times in microseconds. */
export const skarn30Map: FieldMap = sampleMap({
  id: "skarn-30-xml",
  label: "Skarn 30, settings as XML",
  profileId: "skarn-30",
  notes: "Invented data. Levels in tenths of a decibel, times in microseconds, positions from zero.",
  source: {
    kind: "xml",
    lists: [
      "source",
      "input",
      "channel",
      "eq",
      "strip",
      "filter",
      "preset",
      "route",
      "speaker",
      "way",
      "output",
      "part",
    ].concat(["cue", "port", "microphone", "measured"]),
  },
  rules: [
    ...values("screen.", "/skarn/room/@", [
      "siteId",
      "siteName",
      "screenId",
      "screenName",
      "format",
      "seats",
    ]),
    ...values("screen.", "/skarn/room/@", ["temperatureC"]),
    value("screen.videoLatencyMs", "/skarn/room/@pictureLatency", microseconds),
    ...values("screen.geometry.", "/skarn/room/@", ["lengthM", "widthM", "heightM"]),
    value("screen.notes", "/skarn/room/remark", { absent: [""] }),
    value("notes", "/skarn/remark", { absent: [""] }),
    ...values("unit.", "/skarn/@", [
      ["profileId", "model"],
      ["profileRevision", "edition"],
      "serial",
      "firmware",
    ]),
    ...values("unit.", "/skarn/@", [["sampleRateHz", "rate"], "label"]),
    list("sources", "$.skarn.sources.source[*]", [
      ...values("", "/@", ["id", "label", "kind", "assignment"]),
      value("latencyMs", "/@latency", microseconds),
      list("channels", "$.input[*]", [
        ...values("", "/@", ["id", ["connectorId", "jack"]]),
        value("position", "/@number", { as: { kind: "number", offset: 1 } }),
        value("carries", "/@carries", maybe),
        value("gainDb", "/@trim", tenths),
      ]),
    ]),
    list("channels", "$.skarn.channels.channel[*]", [
      ...values("", "/@", ["id", "label"]),
      value("levelDb", "/@level", tenths),
      value("delayMs", "/@delay", microseconds),
      value("mute", "/@audible", mutes),
    ]),
    list("equalizations", "$.skarn.equalizers.eq[*]", [
      ...values("", "/@", ["id", "label"]),
      list("channels", "$.strip[*]", [
        value("channelId", "/@channel"),
        value("graphic.layout", "/graphic/@bands", { optional: true }),
        numbers("graphic.gainsDb", "/graphic/#text", " ", { ...tenths, optional: true }),
        value("graphic.enabled", "/graphic/@bypass", { ...bypass, optional: true }),
        list("parametric", "$.filter[*]", filterRules, { optional: true }),
      ]),
    ]),
    list("presets", "$.skarn.presets.preset[*]", [
      ...values("", "/@", [
        "id",
        "slot",
        "label",
        ["sourceId", "source"],
        "format",
        ["equalizationId", "eq"],
      ]),
      value("levelDb", "/@level", tenths),
      value("delayMs", "/@delay", microseconds),
      value("faderMark", "/@fader", maybe),
      value("reason", "/reason", { absent: [""] }),
      list("routing", "$.route[*]", [
        ...values("", "/@", ["id", ["sourceChannelId", "from"], ["channelId", "to"]]),
        value("gainDb", "/@gain", tenths),
      ]),
    ]),
    list("loudspeakers", "$.skarn.speakers.speaker[*]", [
      ...values("", "/@", ["id", "label", "placement", "drive", "boxes"]),
      value("distanceM", "/@distance", { as: { kind: "length", unit: "mm", decimals: 0 }, absent: ["none"] }),
      list("ways", "$.way[*]", [
        ...values("", "/@", ["id", "band"]),
        ...values(
          "",
          "/@",
          ["safeHighPassHz", "safeHighPassOrder", "ratedPowerW", "impedanceOhm", "sensitivityDb"],
          maybe,
        ),
      ]),
    ]),
    list("outputs", "$.skarn.outputs.output[*]", [
      ...values("", "/@", ["id", "label"]),
      value("connectorId", "/@number", { as: { kind: "template", text: "out-{}", pad: 2 } }),
      value("feeds.kind", "/@feeds"),
      value("feeds.loudspeakerId", "/@speaker", maybe),
      value("feeds.wayId", "/@way", maybe),
      list("mix", "$.part[*]", [value("channelId", "/@channel"), value("gainDb", "/@gain", tenths)]),
      ...crossoverRules("highPass", "/low-end"),
      ...crossoverRules("lowPass", "/high-end"),
      list("filters", "$.filter[*]", filterRules),
      value("gainDb", "/@gain", tenths),
      value("delayMs", "/@delay", microseconds),
      value("polarity", "/@phase", { as: choice({ "0": "normal", "180": "inverted" }) }),
      value("limiter.enabled", "/limiter/@on", { as: choice({ "1": true, "0": false }), absent: ["none"] }),
      value("limiter.thresholdDbfs", "/limiter/@threshold", maybeTenths),
      value("limiter.attackMs", "/limiter/@attack", { ...microseconds, absent: ["none"] }),
      value("limiter.releaseMs", "/limiter/@release", { ...microseconds, absent: ["none"] }),
      value("mute", "/@audible", mutes),
    ]),
    value("operation.faderMark", "/skarn/operation/@fader"),
    value("operation.startPresetId", "/skarn/operation/@start", maybe),
    value("operation.emergencyMute.enabled", "/skarn/operation/alarm/@on", switchedOn),
    ...values("operation.emergencyMute.", "/skarn/operation/alarm/@", [
      ["connectorId", "jack"],
      "activeWhen",
      "release",
    ]),
    ...values("operation.nonSync.", "/skarn/operation/interval/@", [
      ["sourceId", "source"],
      ["presetId", "preset"],
    ]),
    ...values("operation.paging.", "/skarn/operation/paging/@", [
      ["sourceId", "source"],
      ["presetId", "preset"],
    ]),
    value("operation.paging.programDuckDb", "/skarn/operation/paging/@duck", tenths),
    value("operation.boothMonitor.outputId", "/skarn/operation/monitor/@output"),
    value("operation.boothMonitor.levelDb", "/skarn/operation/monitor/@level", tenths),
    value("operation.hearingImpaired.outputId", "/skarn/operation/hearing/@output"),
    value("operation.hearingImpaired.levelDb", "/skarn/operation/hearing/@level", tenths),
    value("operation.hearingImpaired.whenAbsent", "/skarn/operation/hearing/@whenAbsent"),
    value("operation.narration.outputId", "/skarn/operation/narration/@output"),
    value("operation.narration.levelDb", "/skarn/operation/narration/@level", tenths),
    list("automation", "$.skarn.cues.cue[*]", [
      ...values("", "/@", ["id", "label", ["trigger.kind", "on"], ["action.kind", "do"]]),
      ...values("trigger.", "/@", [["connectorId", "jack"], "edge", "text", ["interfaceId", "port"]], maybe),
      ...values(
        "action.",
        "/@",
        [
          ["presetId", "preset"],
          ["faderMark", "fader"],
          ["sourceId", "source"],
        ],
        maybe,
      ),
      value("waitMs", "/@wait", { ...microseconds, absent: ["none"] }),
    ]),
    value("network.hostname", "/skarn/network/@hostname"),
    list("network.interfaces", "$.skarn.network.port[*]", [
      ...values("", "/@", ["id", "label", "purpose", "mode"]),
      ...values("", "/@", ["address", "prefixLength", "gateway"], maybe),
    ]),
    ...values("calibration.", "/skarn/measurement/@", ["date", "by", ["equalizationId", "eq"]]),
    value("calibration.notes", "/skarn/measurement/remark", { absent: [""] }),
    list("calibration.microphonePositions", "$.skarn.measurement.microphone[*]", [
      ...values("", "/@", ["id", "xM", "yM", "zM"]),
    ]),
    list("calibration.channels", "$.skarn.measurement.measured[*]", [
      value("channelId", "/@channel"),
      value("levelDbC", "/@level", tenths),
      value("inBandGainDb", "/@inBand", maybeTenths),
      numbers("thirdOctavesDb", "/#text", " ", { ...tenths, optional: true }),
    ]),
  ],
  ignore: [
    { each: "$.skarn.panel", reason: "The lamps and words of the front panel: no part of the sound." },
    { each: "$.skarn['@written']", reason: "When the file was written." },
  ],
});
