import type { ChannelLabel, Configuration, Loudspeaker, Output, Source } from "../../../src/model/index.ts";
import { delayToArrive } from "../builders/arrival.ts";
import { contactItems, networkItems, recall, serialRecalls } from "../builders/automation.ts";
import { calibrated } from "../builders/calibration.ts";
import { crossover } from "../builders/crossovers.ts";
import { parametricEqSet } from "../builders/equalizers.ts";
import { bell, highShelf } from "../builders/filters.ts";
import { subwoofer, surroundArray, twoWay } from "../builders/loudspeakers.ts";
import { activeOutputs, limiterAt, singleOutput, spareOutputs } from "../builders/outputs.ts";
import { presetsFrom } from "../builders/presets.ts";
import { settleOn } from "../builders/settle.ts";
import { dcpSource, labelledSource } from "../builders/sources.ts";
import { whimbrel32 } from "../profiles/whimbrel-32.ts";

const CHANNELS: readonly ChannelLabel[] = ["L", "R", "C", "LFE", "Ls", "Rs", "Lc", "Rc", "HI", "VIN"];
const ROOM = "copper-heron/screen-2";
const TEMPERATURE_C = 20;
const DISTANCES_M = { outer: 18.1, inner: 17.5, center: 17.2, subs: 16.9, front: 9.8, rear: 8.9 } as const;

const SOURCES: readonly Source[] = [
  dcpSource({ id: "dcp", label: "Server", kind: "aes3", latencyMs: 0, connectors: "dig-in", count: 16 }),
  labelledSource({
    id: "event",
    label: "Event LAN",
    kind: "aes67",
    latencyMs: 24,
    connectors: "lan-in",
    carries: ["L", "R", "C", "LFE", "Ls", "Rs", "unused", "unused"],
  }),
  labelledSource({
    id: "disc",
    label: "Disc player",
    kind: "spdif",
    latencyMs: 0,
    connectors: "coax-in",
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "music",
    label: "Music",
    kind: "analog-stereo",
    latencyMs: 0,
    connectors: "line-in",
    carries: ["L", "R"],
    gainDb: -1.5,
  }),
  labelledSource({
    id: "microphone",
    label: "Microphone",
    kind: "microphone",
    latencyMs: 0,
    connectors: "talk-in",
    carries: ["mono"],
    gainDb: 8,
  }),
];

const show = { sourceId: "dcp", equalizationId: "feature", delayMs: 12, faderMark: 0 } as const;
const program = { equalizationId: "event", delayMs: 0 } as const;

const PRESETS = presetsFrom(
  [
    { ...show, id: "feature-51", label: "Feature 5.1", format: "5.1" },
    { ...show, id: "feature-sds", label: "Feature SDS", format: "7.1SDS" },
    { ...show, id: "trailers-51", label: "Trailers", format: "5.1", levelDb: -4, faderMark: -3 },
    { ...show, id: "advertising", label: "Advertising", format: "5.1", levelDb: -6, faderMark: -6 },
    { ...show, id: "archive-mono", label: "Archive mono", format: "mono", levelDb: 1 },
    { ...program, id: "event-51", label: "Event 5.1", sourceId: "event", format: "5.1", faderMark: -3 },
    {
      ...program,
      id: "disc-stereo",
      label: "Disc stereo",
      sourceId: "disc",
      format: "stereo",
      levelDb: -2,
      delayMs: 28,
      faderMark: -4,
    },
    {
      ...program,
      id: "music",
      label: "Music",
      sourceId: "music",
      format: "stereo",
      levelDb: -8,
      faderMark: -20,
    },
    {
      ...program,
      id: "microphone",
      label: "Microphone",
      sourceId: "microphone",
      format: "mono",
      equalizationId: "speech",
      faderMark: -12,
    },
  ],
  SOURCES,
  CHANNELS,
);

const LOUDSPEAKERS: readonly Loudspeaker[] = [
  twoWay({ id: "left", label: "Screen left", placement: "screen-left", distanceM: DISTANCES_M.outer }),
  twoWay({
    id: "left-center",
    label: "Screen left center",
    placement: "screen-left-center",
    distanceM: DISTANCES_M.inner,
  }),
  twoWay({ id: "center", label: "Screen center", placement: "screen-center", distanceM: DISTANCES_M.center }),
  twoWay({
    id: "right-center",
    label: "Screen right center",
    placement: "screen-right-center",
    distanceM: DISTANCES_M.inner,
  }),
  twoWay({ id: "right", label: "Screen right", placement: "screen-right", distanceM: DISTANCES_M.outer }),
  subwoofer({
    id: "sub-1",
    label: "Sub left",
    placement: "subwoofer",
    distanceM: DISTANCES_M.subs,
    boxes: 1,
  }),
  subwoofer({
    id: "sub-2",
    label: "Sub right",
    placement: "subwoofer",
    distanceM: DISTANCES_M.subs,
    boxes: 1,
  }),
  ...(["left", "right"] as const).flatMap((hand) =>
    (["front", "rear"] as const).map((half) =>
      surroundArray({
        id: `${hand === "left" ? "ls" : "rs"}-${half}`,
        label: `${hand === "left" ? "Left" : "Right"} surrounds, ${half} half`,
        placement: `surround-${hand}`,
        distanceM: DISTANCES_M[half],
        boxes: 4,
      }),
    ),
  ),
];

/** An alignment of 12 dB per octave from older days: the hf way of a Linkwitz-Riley of order 2 is inverted. */
function screenOutputs(
  loudspeakerId: string,
  label: string,
  channel: ChannelLabel,
  firstConnector: number,
): Output[] {
  return activeOutputs({
    loudspeakerId,
    label,
    channel,
    firstConnector,
    protection: crossover("butterworth", 4, 35),
    splits: [crossover("linkwitz-riley", 2, 1000)],
    ways: [
      {
        wayId: "lf",
        gainDb: -4.5,
        alignMs: 0.25,
        filters: [bell(55, 1.2, 1.6), bell(180, -2.1, 2.2), bell(640, -1.6, 1.4)],
        limiter: limiterAt(-4.5, 10, 200),
      },
      {
        wayId: "hf",
        gainDb: -12.5,
        alignMs: 0,
        filters: [bell(1400, -2.3, 1.6), bell(4200, -1.4, 2.8), highShelf(6500, 5.2, { q: 0.6 })],
        limiter: limiterAt(-9, 0.5, 50),
      },
    ],
  });
}

function surroundOutput(
  id: string,
  label: string,
  channel: ChannelLabel,
  connector: number,
  half: "front" | "rear",
) {
  return singleOutput({
    id,
    label,
    connector,
    feeds: { kind: "loudspeaker", loudspeakerId: id, wayId: "full" },
    mix: [{ channelId: channel, gainDb: 0 }],
    highPass: crossover("butterworth", 2, 75),
    filters: [bell(3000, -1.2, 1.6), highShelf(10000, 1.4, { q: 0.7 })],
    gainDb: half === "front" ? -9.5 : -10.25,
    delayMs: delayToArrive({
      farM: DISTANCES_M.front,
      nearM: DISTANCES_M[half],
      afterMs: 0,
      temperatureC: TEMPERATURE_C,
    }),
    limiter: limiterAt(-6, 5, 200),
  });
}

function subOutput(number: number): Output {
  return singleOutput({
    id: `sub-${number}`,
    label: `Sub ${number}`,
    connector: 12 + number,
    feeds: { kind: "loudspeaker", loudspeakerId: `sub-${number}`, wayId: "sub" },
    mix: [{ channelId: "LFE", gainDb: 0 }],
    highPass: crossover("butterworth", 4, 24),
    lowPass: crossover("linkwitz-riley", 4, 120),
    filters: [bell(48, -3.2, 4)],
    gainDb: -4,
    delayMs: delayToArrive({
      farM: DISTANCES_M.center,
      nearM: DISTANCES_M.subs,
      afterMs: 0,
      temperatureC: TEMPERATURE_C,
    }),
    limiter: limiterAt(-3, 20, 500),
  });
}

function feedOutputs(): Output[] {
  const headset = {
    highPass: crossover("butterworth", 2, 100),
    filters: [],
    gainDb: -6,
    delayMs: 0,
    limiter: limiterAt(-10, 2, 200),
  } as const;
  return [
    singleOutput({
      id: "hearing",
      label: "HI",
      connector: 29,
      feeds: { kind: "hearing-impaired" },
      mix: [{ channelId: "HI", gainDb: 0 }],
      ...headset,
    }),
    singleOutput({
      id: "narration",
      label: "VIN",
      connector: 30,
      feeds: { kind: "narration" },
      mix: [{ channelId: "VIN", gainDb: 0 }],
      ...headset,
    }),
    singleOutput({
      id: "monitor",
      label: "Monitor",
      connector: 31,
      feeds: { kind: "booth-monitor" },
      mix: (["L", "R", "C", "LFE", "Ls", "Rs", "Lc", "Rc"] as const).map((channelId) => ({
        channelId,
        gainDb: -20,
      })),
      highPass: crossover("butterworth", 2, 90),
      filters: [],
      gainDb: -6,
      delayMs: 0,
      limiter: limiterAt(-12, 5, 200),
    }),
  ];
}

function connectedOutputs(): Output[] {
  return [
    ...screenOutputs("left", "Left", "L", 1),
    ...screenOutputs("left-center", "L-center", "Lc", 3),
    ...screenOutputs("center", "Center", "C", 5),
    ...screenOutputs("right-center", "R-center", "Rc", 7),
    ...screenOutputs("right", "Right", "R", 9),
    subOutput(1),
    subOutput(2),
    surroundOutput("ls-front", "Ls front", "Ls", 17, "front"),
    surroundOutput("ls-rear", "Ls rear", "Ls", 18, "rear"),
    surroundOutput("rs-front", "Rs front", "Rs", 19, "front"),
    surroundOutput("rs-rear", "Rs rear", "Rs", 20, "rear"),
    ...feedOutputs(),
  ];
}

/** Copper Heron, screen 2: five screen channels (7.1SDS), 286 seats, bi-amplified, parametric EQ at 96 kHz. */
export function copperHeron2(): Configuration {
  const surroundMs = delayToArrive({
    farM: DISTANCES_M.center,
    nearM: DISTANCES_M.front,
    afterMs: 15,
    temperatureC: TEMPERATURE_C,
  });
  const levelsDb: Partial<Record<ChannelLabel, number>> = {
    L: -0.5,
    R: -0.75,
    Lc: -1,
    Rc: -1,
    LFE: -1,
    Ls: -0.5,
    Rs: -0.25,
  };
  const outputs = connectedOutputs();
  const eq = { room: ROOM, channels: CHANNELS };
  return settleOn(whimbrel32, {
    $schema: "../../../schemas/configuration.schema.json",
    kind: "boothkeep.configuration",
    schemaVersion: "1.0.0",
    screen: {
      siteId: "copper-heron",
      siteName: "Copper Heron",
      screenId: "screen-2",
      screenName: "Screen 2",
      format: "7.1SDS",
      seats: 286,
      temperatureC: TEMPERATURE_C,
      videoLatencyMs: 42,
      geometry: { lengthM: 25.2, widthM: 18.3, heightM: 9.4 },
    },
    unit: {
      profileId: "whimbrel-32",
      profileRevision: "1.0.0",
      serial: "W32-0000731",
      firmware: "1.5.2",
      sampleRateHz: 96000,
      label: "Heron 2",
    },
    sources: SOURCES,
    channels: CHANNELS.map((label) => ({
      id: label,
      label,
      levelDb: levelsDb[label] ?? 0,
      delayMs: label === "Ls" || label === "Rs" ? surroundMs : 0,
      mute: false,
    })),
    equalizations: [
      parametricEqSet({ id: "feature", label: "Feature", purpose: "feature", ...eq }),
      parametricEqSet({ id: "event", label: "Event", purpose: "event", ...eq }),
      parametricEqSet({ id: "speech", label: "Speech", purpose: "speech", ...eq }),
    ],
    presets: PRESETS,
    loudspeakers: LOUDSPEAKERS,
    outputs: [...outputs, ...spareOutputs(32, outputs)],
    operation: {
      faderMark: 0,
      startPresetId: "feature-51",
      emergencyMute: { enabled: true, connectorId: "control-in-08", activeWhen: "open", release: "by-hand" },
      nonSync: { sourceId: "music", presetId: "music" },
      paging: { sourceId: "microphone", presetId: "microphone", programDuckDb: 20 },
      boothMonitor: { outputId: "monitor", levelDb: -12 },
      hearingImpaired: { outputId: "hearing", levelDb: -6, whenAbsent: "program-mix" },
      narration: { outputId: "narration", levelDb: -6 },
    },
    automation: [
      ...contactItems(
        [
          { label: "Trailers", action: recall("trailers-51") },
          { label: "Feature 5.1", action: recall("feature-51") },
          { label: "Music", action: recall("music") },
        ],
        "control-in",
      ),
      ...serialRecalls(PRESETS, "com-01"),
      ...networkItems(
        PRESETS.map(({ id, label, slot }) => ({ id, label, text: `show ${slot}`, action: recall(id) })),
      ),
    ],
    network: {
      hostname: "copper-heron-2-sound",
      interfaces: [
        {
          id: "control",
          label: "Control",
          purpose: "control",
          mode: "fixed",
          address: "192.0.2.82",
          prefixLength: 26,
          gateway: "192.0.2.65",
        },
        {
          id: "audio",
          label: "Audio",
          purpose: "audio",
          mode: "fixed",
          address: "198.51.100.82",
          prefixLength: 26,
        },
      ],
    },
    calibration: {
      date: "2026-02-12",
      by: "Alignment team",
      equalizationId: "feature",
      microphonePositions: [
        { id: "p1", xM: 0, yM: 16.8, zM: 1.2 },
        { id: "p2", xM: -2.7, yM: 14.9, zM: 1.2 },
        { id: "p3", xM: 2.5, yM: 18.7, zM: 1.2 },
        { id: "p4", xM: 3.9, yM: 13.1, zM: 1.2 },
      ],
      channels: calibrated(ROOM, CHANNELS),
    },
    notes: "Invented data. Never load into a real unit.",
  });
}
