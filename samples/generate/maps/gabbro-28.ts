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

/** The export of the Gabbro 28: XML with attributes, levels in tenths of a decibel, times in microseconds. */
export const gabbro28Map: FieldMap = sampleMap({
  id: "gabbro-28-xml",
  label: "Gabbro 28, settings as XML",
  profileId: "gabbro-28",
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
    ...values("screen.", "/gabbro/room/@", [
      "siteId",
      "siteName",
      "screenId",
      "screenName",
      "format",
      "seats",
    ]),
    ...values("screen.", "/gabbro/room/@", ["temperatureC"]),
    value("screen.videoLatencyMs", "/gabbro/room/@pictureLatency", microseconds),
    ...values("screen.geometry.", "/gabbro/room/@", ["lengthM", "widthM", "heightM"]),
    value("screen.notes", "/gabbro/room/remark", { absent: [""] }),
    value("notes", "/gabbro/remark", { absent: [""] }),
    ...values("unit.", "/gabbro/@", [
      ["profileId", "model"],
      ["profileRevision", "edition"],
      "serial",
      "firmware",
    ]),
    ...values("unit.", "/gabbro/@", [["sampleRateHz", "rate"], "label"]),
    list("sources", "$.gabbro.sources.source[*]", [
      ...values("", "/@", ["id", "label", "kind", "assignment"]),
      value("latencyMs", "/@latency", microseconds),
      list("channels", "$.input[*]", [
        ...values("", "/@", ["id", ["connectorId", "jack"]]),
        value("position", "/@number", { as: { kind: "number", offset: 1 } }),
        value("carries", "/@carries", maybe),
        value("gainDb", "/@trim", tenths),
      ]),
    ]),
    list("channels", "$.gabbro.channels.channel[*]", [
      ...values("", "/@", ["id", "label"]),
      value("levelDb", "/@level", tenths),
      value("delayMs", "/@delay", microseconds),
      value("mute", "/@audible", mutes),
    ]),
    list("equalizations", "$.gabbro.equalizers.eq[*]", [
      ...values("", "/@", ["id", "label"]),
      list("channels", "$.strip[*]", [
        value("channelId", "/@channel"),
        value("graphic.layout", "/graphic/@bands", { optional: true }),
        numbers("graphic.gainsDb", "/graphic/#text", " ", { ...tenths, optional: true }),
        value("graphic.enabled", "/graphic/@bypass", { ...bypass, optional: true }),
        list("parametric", "$.filter[*]", filterRules, { optional: true }),
      ]),
    ]),
    list("presets", "$.gabbro.presets.preset[*]", [
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
    list("loudspeakers", "$.gabbro.speakers.speaker[*]", [
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
    list("outputs", "$.gabbro.outputs.output[*]", [
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
    value("operation.faderMark", "/gabbro/operation/@fader"),
    value("operation.startPresetId", "/gabbro/operation/@start", maybe),
    value("operation.emergencyMute.enabled", "/gabbro/operation/alarm/@on", switchedOn),
    ...values("operation.emergencyMute.", "/gabbro/operation/alarm/@", [
      ["connectorId", "jack"],
      "activeWhen",
      "release",
    ]),
    ...values("operation.nonSync.", "/gabbro/operation/interval/@", [
      ["sourceId", "source"],
      ["presetId", "preset"],
    ]),
    ...values("operation.paging.", "/gabbro/operation/paging/@", [
      ["sourceId", "source"],
      ["presetId", "preset"],
    ]),
    value("operation.paging.programDuckDb", "/gabbro/operation/paging/@duck", tenths),
    value("operation.boothMonitor.outputId", "/gabbro/operation/monitor/@output"),
    value("operation.boothMonitor.levelDb", "/gabbro/operation/monitor/@level", tenths),
    value("operation.hearingImpaired.outputId", "/gabbro/operation/hearing/@output"),
    value("operation.hearingImpaired.levelDb", "/gabbro/operation/hearing/@level", tenths),
    value("operation.hearingImpaired.whenAbsent", "/gabbro/operation/hearing/@whenAbsent"),
    value("operation.narration.outputId", "/gabbro/operation/narration/@output"),
    value("operation.narration.levelDb", "/gabbro/operation/narration/@level", tenths),
    list("automation", "$.gabbro.cues.cue[*]", [
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
    value("network.hostname", "/gabbro/network/@hostname"),
    list("network.interfaces", "$.gabbro.network.port[*]", [
      ...values("", "/@", ["id", "label", "purpose", "mode"]),
      ...values("", "/@", ["address", "prefixLength", "gateway"], maybe),
    ]),
    ...values("calibration.", "/gabbro/measurement/@", ["date", "by", ["equalizationId", "eq"]]),
    value("calibration.notes", "/gabbro/measurement/remark", { absent: [""] }),
    list("calibration.microphonePositions", "$.gabbro.measurement.microphone[*]", [
      ...values("", "/@", ["id", "xM", "yM", "zM"]),
    ]),
    list("calibration.channels", "$.gabbro.measurement.measured[*]", [
      value("channelId", "/@channel"),
      value("levelDbC", "/@level", tenths),
      value("inBandGainDb", "/@inBand", maybeTenths),
      numbers("thirdOctavesDb", "/#text", " ", { ...tenths, optional: true }),
    ]),
  ],
  ignore: [
    { each: "$.gabbro.panel", reason: "The lamps and words of the front panel: no part of the sound." },
    { each: "$.gabbro['@written']", reason: "When the file was written." },
  ],
});
