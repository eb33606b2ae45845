import type { FieldMap } from "../../../src/model/index.ts";
import { choice, list, numbers, sampleMap, segment, value, values } from "./rules.ts";

const maybe = { absent: ["-"] } as const;
const db = { as: { kind: "level", unit: "dB", suffix: "dB" } } as const;
const maybeDb = { ...db, absent: ["-"] } as const;
const metres = { as: { kind: "time", unit: "m", decimals: 4, round: 2 } } as const;
const heard = { as: choice({ on: false, off: true }) } as const;
const kilohertz = { as: { kind: "frequency", unit: "kHz", round: 3 }, absent: ["-"] } as const;
const switched = { as: choice({ out: false }), absent: ["in"] } as const;

const filterRules = [
  segment("id"),
  value("kind", "/kind"),
  value("frequencyHz", "/khz", { as: { kind: "frequency", unit: "kHz", round: 3 } }),
  value("gainDb", "/gain", maybeDb),
  ...values("", "/", ["q", "slope", "order"], maybe),
  value("enabled", "/state", switched),
];

const band = "{kind} {khz} {gain} {q} {slope} {order} {state}";

/** The export of the Dunlin 16: the commands that would set it, delays in metres, frequencies in kilohertz. */
export const dunlin16Map: FieldMap = sampleMap({
  id: "dunlin-16-commands",
  label: "Dunlin 16, settings as commands",
  profileId: "dunlin-16",
  notes: "Invented data. Delays in metres at the room's temperature, frequencies in kilohertz.",
  source: {
    kind: "lines",
    comments: ["!"],
    forms: [
      { form: "unit {profileId} {profileRevision} {serial} {firmware} {rate} {label:quoted}", at: "/unit" },
      { form: "room {siteId} {siteName:quoted} {screenId} {screenName:quoted}", at: "/room" },
      { form: "room is {format} seats {seats} air {air}C picture {picture}ms", at: "/room" },
      { form: "room measures {lengthM} by {widthM} by {heightM}", at: "/room" },
      { form: "remark {remark:quoted}", at: "/remark" },
      { form: "source {source} {kind} {assignment} {latency}ms {label:quoted}", at: "/source/{source}" },
      {
        form: "input {source} {input} at {number} jack {jack} carries {carries} trim {trim}",
        at: "/source/{source}/input/{input}",
      },
      {
        form: "channel {channel} {label} level {level} behind {delay}m sound {sound}",
        at: "/channel/{channel}",
      },
      { form: "eq {eq} {label:quoted}", at: "/eq/{eq}" },
      { form: "eq {eq} {channel} graphic {layout} {state} {gains:rest}", at: "/eq/{eq}/strip/{channel}" },
      { form: `eq {eq} {channel} band {band} ${band}`, at: "/eq/{eq}/strip/{channel}/band/{band}" },
      { form: "show {slot} {id} {format} {label:quoted}", at: "/show/{slot}" },
      {
        form: "show {slot} plays {source} with {eq} level {level} behind {delay}ms fader {fader}",
        at: "/show/{slot}",
      },
      { form: "show {slot} because {reason:quoted}", at: "/show/{slot}" },
      { form: "show {slot} route {route} {from} {to} {gain}", at: "/show/{slot}/route/{route}" },
      {
        form: "speaker {speaker} {placement} {drive} {boxes} {distance}m {label:quoted}",
        at: "/speaker/{speaker}",
      },
      {
        form: "speaker {speaker} way {way} {band} {hz} {order} {power} {impedance} {sensitivity}",
        at: "/speaker/{speaker}/way/{way}",
      },
      { form: "out {out} jack {jack} {label:quoted}", at: "/out/{out}" },
      { form: "out {out} feeds {feeds} {speaker} {way}", at: "/out/{out}" },
      { form: "out {out} gain {gain} behind {delay}m {phase} sound {sound}", at: "/out/{out}" },
      { form: "out {out} above {family} {order} {khz} {norm}", at: "/out/{out}/above" },
      { form: "out {out} below {family} {order} {khz} {norm}", at: "/out/{out}/below" },
      { form: "out {out} limit {on} {threshold} {attack} {release}", at: "/out/{out}/limit" },
      { form: "out {out} mix {channel} {gain}", at: "/out/{out}/mix/{channel}" },
      { form: `out {out} band {band} ${band}`, at: "/out/{out}/band/{band}" },
      { form: "booth fader {fader} start {start}", at: "/booth" },
      { form: "booth alarm {on} {jack} {when} {release}", at: "/booth/alarm" },
      { form: "booth interval {source} {show}", at: "/booth/interval" },
      { form: "booth paging {source} {show} {duck}", at: "/booth/paging" },
      { form: "booth monitor {out} {level}", at: "/booth/monitor" },
      { form: "booth hearing {out} {level} {else}", at: "/booth/hearing" },
      { form: "booth narration {out} {level}", at: "/booth/narration" },
      { form: "cue {cue} on {on} {jack} {edge} {port} {text:quoted}", at: "/cue/{cue}" },
      { form: "cue {cue} do {do} {show} {fader} {source} after {wait} {label:quoted}", at: "/cue/{cue}" },
      { form: "host {host}", at: "/network" },
      {
        form: "port {port} {purpose} {mode} {address} {prefix} {gateway} {label:quoted}",
        at: "/network/port/{port}",
      },
      { form: "measured {date} {eq} {by:quoted}", at: "/measured" },
      { form: "measured at {position} {xM} {yM} {zM}", at: "/measured/position/{position}" },
      { form: "measured channel {channel} {level} {band} {thirds:rest}", at: "/measured/channel/{channel}" },
      { form: "lamp {brightness}", at: "/lamp" },
    ],
  },
  rules: [
    ...values("unit.", "/unit/", [
      "profileId",
      "profileRevision",
      "serial",
      "firmware",
      ["sampleRateHz", "rate"],
      "label",
    ]),
    ...values("screen.", "/room/", ["siteId", "siteName", "screenId", "screenName", "format", "seats"]),
    ...values("screen.", "/room/", [
      ["temperatureC", "air"],
      ["videoLatencyMs", "picture"],
    ]),
    ...values("screen.geometry.", "/room/", ["lengthM", "widthM", "heightM"]),
    value("notes", "/remark/remark", { absent: [""], optional: true }),
    list("sources", "$.source.*", [
      segment("id"),
      ...values("", "/", ["kind", "assignment", ["latencyMs", "latency"], "label"]),
      list("channels", "$.input.*", [
        segment("id"),
        value("position", "/number"),
        value("connectorId", "/jack"),
        value("carries", "/carries", maybe),
        value("gainDb", "/trim", db),
      ]),
    ]),
    list("channels", "$.channel.*", [
      segment("id"),
      value("label", "/label"),
      value("levelDb", "/level", db),
      value("delayMs", "/delay", metres),
      value("mute", "/sound", heard),
    ]),
    list("equalizations", "$.eq.*", [
      segment("id"),
      value("label", "/label"),
      list("channels", "$.strip.*", [
        segment("channelId"),
        value("graphic.layout", "/layout", { optional: true }),
        value("graphic.enabled", "/state", { ...switched, optional: true }),
        numbers("graphic.gainsDb", "/gains", " ", { optional: true }),
        list("parametric", "$.band.*", filterRules, { optional: true }),
      ]),
    ]),
    list("presets", "$.show.*", [
      { kind: "value", field: "slot", segment: 0 },
      ...values("", "/", ["id", "format", "label", ["sourceId", "source"], ["equalizationId", "eq"]]),
      value("levelDb", "/level", db),
      value("delayMs", "/delay"),
      value("faderMark", "/fader", maybe),
      value("reason", "/reason", { optional: true }),
      list("routing", "$.route.*", [
        segment("id"),
        value("sourceChannelId", "/from"),
        value("channelId", "/to"),
        value("gainDb", "/gain", db),
      ]),
    ]),
    list("loudspeakers", "$.speaker.*", [
      segment("id"),
      ...values("", "/", ["placement", "drive", "boxes", "label"]),
      value("distanceM", "/distance", maybe),
      list("ways", "$.way.*", [
        segment("id"),
        value("band", "/band"),
        ...values(
          "",
          "/",
          [
            ["safeHighPassHz", "hz"],
            ["safeHighPassOrder", "order"],
            ["ratedPowerW", "power"],
          ],
          maybe,
        ),
        ...values(
          "",
          "/",
          [
            ["impedanceOhm", "impedance"],
            ["sensitivityDb", "sensitivity"],
          ],
          maybe,
        ),
      ]),
    ]),
    list("outputs", "$.out.*", [
      segment("id"),
      value("connectorId", "/jack", { as: { kind: "template", text: "out-{}", pad: 2, offset: 1 } }),
      value("label", "/label"),
      value("feeds.kind", "/feeds"),
      value("feeds.loudspeakerId", "/speaker", maybe),
      value("feeds.wayId", "/way", maybe),
      list("mix", "$.mix.*", [segment("channelId"), value("gainDb", "/gain", db)]),
      ...["highPass /above", "lowPass /below"].flatMap((pair) => {
        const [field, at] = pair.split(" ");
        return [
          value(`${field}.family`, `${at}/family`, maybe),
          value(`${field}.order`, `${at}/order`, maybe),
          value(`${field}.frequencyHz`, `${at}/khz`, kilohertz),
          value(`${field}.normalization`, `${at}/norm`, maybe),
        ];
      }),
      list("filters", "$.band.*", filterRules),
      value("gainDb", "/gain", db),
      value("delayMs", "/delay", metres),
      value("polarity", "/phase", { as: choice({ plus: "normal", minus: "inverted" }) }),
      value("limiter.enabled", "/limit/on", { as: choice({ on: true, off: false }), absent: ["-"] }),
      value("limiter.thresholdDbfs", "/limit/threshold", maybeDb),
      ...values(
        "limiter.",
        "/limit/",
        [
          ["attackMs", "attack"],
          ["releaseMs", "release"],
        ],
        maybe,
      ),
      value("mute", "/sound", heard),
    ]),
    value("operation.faderMark", "/booth/fader"),
    value("operation.startPresetId", "/booth/start", maybe),
    value("operation.emergencyMute.enabled", "/booth/alarm/on", { as: choice({ on: true, off: false }) }),
    ...values("operation.emergencyMute.", "/booth/alarm/", [
      ["connectorId", "jack"],
      ["activeWhen", "when"],
      "release",
    ]),
    ...values("operation.nonSync.", "/booth/interval/", [
      ["sourceId", "source"],
      ["presetId", "show"],
    ]),
    ...values("operation.paging.", "/booth/paging/", [
      ["sourceId", "source"],
      ["presetId", "show"],
    ]),
    value("operation.paging.programDuckDb", "/booth/paging/duck", db),
    value("operation.boothMonitor.outputId", "/booth/monitor/out"),
    value("operation.boothMonitor.levelDb", "/booth/monitor/level", db),
    value("operation.hearingImpaired.outputId", "/booth/hearing/out"),
    value("operation.hearingImpaired.levelDb", "/booth/hearing/level", db),
    value("operation.hearingImpaired.whenAbsent", "/booth/hearing/else"),
    value("operation.narration.outputId", "/booth/narration/out"),
    value("operation.narration.levelDb", "/booth/narration/level", db),
    list("automation", "$.cue.*", [
      segment("id"),
      ...values("", "/", ["label", ["trigger.kind", "on"], ["action.kind", "do"]]),
      ...values("trigger.", "/", [["connectorId", "jack"], "edge", ["interfaceId", "port"]], maybe),
      value("trigger.text", "/text", { absent: [""] }),
      ...values(
        "action.",
        "/",
        [
          ["presetId", "show"],
          ["faderMark", "fader"],
          ["sourceId", "source"],
        ],
        maybe,
      ),
      value("waitMs", "/wait", maybe),
    ]),
    value("network.hostname", "/network/host"),
    list("network.interfaces", "$.network.port.*", [
      segment("id"),
      ...values("", "/", ["purpose", "mode", "label"]),
      ...values("", "/", ["address", ["prefixLength", "prefix"], "gateway"], maybe),
    ]),
    ...values("calibration.", "/measured/", ["date", "by", ["equalizationId", "eq"]]),
    list("calibration.microphonePositions", "$.measured.position.*", [
      segment("id"),
      ...values("", "/", ["xM", "yM", "zM"]),
    ]),
    list("calibration.channels", "$.measured.channel.*", [
      segment("channelId"),
      value("levelDbC", "/level"),
      value("inBandGainDb", "/band", maybe),
      numbers("thirdOctavesDb", "/thirds", " ", { optional: true }),
    ]),
  ],
  ignore: [{ each: "$.lamp", reason: "Lamps of the front panel: no part of the sound." }],
});
