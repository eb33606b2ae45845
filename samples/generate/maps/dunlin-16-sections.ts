import type { Conversion, FieldMap } from "../../../src/model/index.ts";
import { choice, list, numbers, sampleMap, segment, value, values } from "./rules.ts";

const maybe = { optional: true } as const;
const db = { as: { kind: "level", unit: "hundredth-dB", decimals: 0 } } as const;
const seconds = { as: { kind: "time", unit: "s" } } as const;
const cm = { as: { kind: "length", unit: "cm", decimals: 0 } } as const;
const on = { as: choice({ y: true, n: false }) } as const;
const onMaybe = { ...on, ...maybe } as const;

/** The unit's fader scale, from dB to marks. */
const fader: { readonly as: Conversion } = {
  as: {
    kind: "table",
    decimals: 2,
    round: 0,
    points: [
      { export: -80, value: 0 },
      { export: -30, value: 15 },
      { export: 0, value: 45 },
      { export: 10, value: 60 },
    ],
  },
};

const bandRules = [
  segment("id"),
  ...values("", "/", ["kind", ["frequencyHz", "hz"]]),
  value("gainDb", "/gain", { ...db, ...maybe }),
  value("q", "/width", { as: { kind: "width", unit: "octaves", decimals: 5, round: 2 }, ...maybe }),
  ...values("", "/", ["slope", "order"], maybe),
  value("enabled", "/on", onMaybe),
];

function cornerRules(field: string, at: string) {
  const fields = [
    ["family", ""],
    ["order", "-order"],
    ["frequencyHz", "-hz"],
    ["normalization", "-norm"],
  ] as const;
  return values(`${field}.`, at, fields, maybe);
}

/** The sections of the Dunlin 16: keys with values, decimal commas, what is not in use is not there. */
export const dunlin16SectionsMap: FieldMap = sampleMap({
  id: "dunlin-16-sections",
  label: "Dunlin 16, settings in sections",
  profileId: "dunlin-16",
  notes:
    "Invented data. Levels in hundredths of a decibel, times in seconds, lengths in centimetres, the fader in dB.",
  source: { kind: "key-value", separator: "=", sections: true, divider: ".", comments: [";"] },
  decimal: ",",
  rules: [
    ...values("unit.", "/unit/", [
      ["profileId", "model"],
      ["profileRevision", "edition"],
      "serial",
      "firmware",
      ["sampleRateHz", "rate"],
      ["label", "title"],
    ]),
    value("notes", "/unit/remark", maybe),
    ...values("screen.", "/room/", [
      ["siteId", "site"],
      ["siteName", "site-title"],
      ["screenId", "room"],
      ["screenName", "room-title"],
      "format",
      "seats",
      ["temperatureC", "air"],
      ["videoLatencyMs", "picture"],
    ]),
    ...values(
      "screen.geometry.",
      "/room/",
      [
        ["lengthM", "length-cm"],
        ["widthM", "width-cm"],
        ["heightM", "height-cm"],
      ],
      cm,
    ),
    list("sources", "$.source.*", [
      segment("id"),
      ...values("", "/", [["label", "title"], "kind", ["assignment", "positions"], ["latencyMs", "latency"]]),
      list("channels", "$.input.*", [
        segment("id"),
        value("position", "/position", { as: { kind: "number", offset: 1 } }),
        value("connectorId", "/jack"),
        value("carries", "/carries", maybe),
        value("gainDb", "/trim", db),
      ]),
    ]),
    list("channels", "$.channel.*", [
      segment("id"),
      value("label", "/title"),
      value("levelDb", "/level", db),
      value("delayMs", "/delay", seconds),
      value("mute", "/off", on),
    ]),
    list("equalizations", "$.eq.*", [
      segment("id"),
      value("label", "/title"),
      list("channels", "$.strip.*", [
        segment("channelId"),
        value("graphic.layout", "/graphic", maybe),
        value("graphic.enabled", "/graphic-on", onMaybe),
        numbers("graphic.gainsDb", "/gains", " ", { ...db, ...maybe }),
        list("parametric", "$.band.*", bandRules, { optional: true }),
      ]),
    ]),
    list("presets", "$.preset.*", [
      { kind: "value", field: "slot", segment: 0 },
      ...values("", "/", [
        "id",
        ["label", "title"],
        ["sourceId", "plays"],
        "format",
        ["equalizationId", "eq"],
      ]),
      value("levelDb", "/level", db),
      value("delayMs", "/delay", seconds),
      value("faderMark", "/fader", { ...fader, ...maybe }),
      value("reason", "/reason", maybe),
      list("routing", "$.route.*", [
        segment("id"),
        ...values("", "/", [
          ["sourceChannelId", "from"],
          ["channelId", "to"],
        ]),
        value("gainDb", "/gain", db),
      ]),
    ]),
    list("loudspeakers", "$.speaker.*", [
      segment("id"),
      ...values("", "/", [["label", "title"], ["placement", "at"], "drive", "boxes"]),
      value("distanceM", "/distance", { ...cm, ...maybe }),
      list("ways", "$.way.*", [
        segment("id"),
        value("band", "/band"),
        ...values(
          "",
          "/",
          [
            ["safeHighPassHz", "safe-hz"],
            ["safeHighPassOrder", "safe-order"],
            ["ratedPowerW", "power"],
            ["impedanceOhm", "impedance"],
            ["sensitivityDb", "sensitivity"],
          ],
          maybe,
        ),
      ]),
    ]),
    list("outputs", "$.out.*", [
      segment("id"),
      value("label", "/title"),
      value("connectorId", "/jack", { as: { kind: "template", text: "out-{}", pad: 2 } }),
      value("feeds.kind", "/feeds"),
      value("feeds.loudspeakerId", "/speaker", maybe),
      value("feeds.wayId", "/way", maybe),
      list("mix", "$.mix.*", [segment("channelId"), value("gainDb", "/gain", db)]),
      ...cornerRules("highPass", "/above"),
      ...cornerRules("lowPass", "/below"),
      list("filters", "$.band.*", bandRules),
      value("gainDb", "/gain", db),
      value("delayMs", "/delay", seconds),
      value("polarity", "/phase", { as: choice({ "+": "normal", "-": "inverted" }) }),
      value("limiter.enabled", "/limit", onMaybe),
      value("limiter.thresholdDbfs", "/limit-at", { ...db, ...maybe }),
      value("limiter.attackMs", "/limit-attack", maybe),
      value("limiter.releaseMs", "/limit-release", maybe),
      value("mute", "/off", on),
    ]),
    value("operation.faderMark", "/booth/fader", fader),
    value("operation.startPresetId", "/booth/start", maybe),
    value("operation.emergencyMute.enabled", "/booth/alarm/on", onMaybe),
    ...values(
      "operation.emergencyMute.",
      "/booth/alarm/",
      [["connectorId", "jack"], ["activeWhen", "when"], "release"],
      maybe,
    ),
    ...values(
      "operation.nonSync.",
      "/booth/interval/",
      [
        ["sourceId", "source"],
        ["presetId", "preset"],
      ],
      maybe,
    ),
    ...values(
      "operation.paging.",
      "/booth/paging/",
      [
        ["sourceId", "source"],
        ["presetId", "preset"],
      ],
      maybe,
    ),
    value("operation.paging.programDuckDb", "/booth/paging/duck", { ...db, ...maybe }),
    ...["boothMonitor monitor", "hearingImpaired hearing", "narration narration"].flatMap((pair) => {
      const [field, at] = pair.split(" ");
      return [
        value(`operation.${field}.outputId`, `/booth/${at}/out`, maybe),
        value(`operation.${field}.levelDb`, `/booth/${at}/level`, { ...db, ...maybe }),
      ];
    }),
    value("operation.hearingImpaired.whenAbsent", "/booth/hearing/else", maybe),
    list("automation", "$.cue.*", [
      segment("id"),
      ...values("", "/", [
        ["label", "title"],
        ["trigger.kind", "when"],
        ["action.kind", "what"],
      ]),
      ...values("trigger.", "/", ["connectorId", "edge", "text", "interfaceId"], maybe),
      ...values("action.", "/", ["presetId", "faderMark", "sourceId"], maybe),
      value("waitMs", "/wait", maybe),
    ]),
    value("network.hostname", "/unit/host"),
    list("network.interfaces", "$.port.*", [
      segment("id"),
      ...values("", "/", [["label", "title"], "purpose", "mode"]),
      ...values("", "/", ["address", ["prefixLength", "bits"], "gateway"], maybe),
    ]),
    ...values("calibration.", "/measured/", ["date", "by", ["equalizationId", "eq"]]),
    list("calibration.microphonePositions", "$.measured.place.*", [
      segment("id"),
      ...values(
        "",
        "/",
        [
          ["xM", "x"],
          ["yM", "y"],
          ["zM", "z"],
        ],
        cm,
      ),
    ]),
    list("calibration.channels", "$.measured.channel.*", [
      segment("channelId"),
      value("levelDbC", "/level"),
      value("inBandGainDb", "/in-band", maybe),
      numbers("thirdOctavesDb", "/thirds", " ", { optional: true }),
    ]),
  ],
  ignore: [{ each: "$.unit.lamp", reason: "Lamps of the front panel: no part of the sound." }],
});
