import type { ChannelLabel, Configuration, Loudspeaker, Output, Source } from "../../../src/model/index.ts";
import { delayToArrive } from "../builders/arrival.ts";
import { contactItems, recall, serialRecalls } from "../builders/automation.ts";
import { calibrated } from "../builders/calibration.ts";
import { crossover } from "../builders/crossovers.ts";
import { octaveEqSet } from "../builders/equalizers.ts";
import { feedOutputs, HEADSET_LIMITER, usualOperation } from "../builders/feeds.ts";
import { bell, highShelf } from "../builders/filters.ts";
import { subwoofer, surroundArray, twoWay } from "../builders/loudspeakers.ts";
import { fixedNetwork } from "../builders/network.ts";
import { activeOutputs, limiterAt, singleOutput, spareOutputs } from "../builders/outputs.ts";
import { presetsFrom } from "../builders/presets.ts";
import { settleOn } from "../builders/settle.ts";
import { dcpSource, labelledSource } from "../builders/sources.ts";
import { dunlin16 } from "../profiles/dunlin-16.ts";

const CHANNELS: readonly ChannelLabel[] = ["L", "R", "C", "LFE", "Ls", "Rs", "HI", "VIN"];
const ROOM = "lantern-mill/screen-4";
const TEMPERATURE_C = 21;
const DISTANCES_M = { left: 11.9, center: 11.5, right: 11.9, sub: 11.2, surround: 5.8 } as const;

const SOURCES: readonly Source[] = [
  dcpSource({ id: "dcp", label: "SERVER", kind: "aes3", latencyMs: 0, connectors: "digital-in", count: 8 }),
  labelledSource({
    id: "disc",
    label: "DISC",
    kind: "spdif",
    latencyMs: 0,
    connectors: "spdif-in",
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "music",
    label: "MUSIC",
    kind: "analog-stereo",
    latencyMs: 0,
    connectors: "stereo-in",
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "microphone",
    label: "MIC",
    kind: "microphone",
    latencyMs: 0,
    connectors: "microphone-in",
    carries: ["mono"],
    gainDb: 4,
  }),
];

const show = { sourceId: "dcp", equalizationId: "feature", delayMs: 22, faderMark: 45 } as const;
const program = { equalizationId: "event", delayMs: 0, format: "stereo" } as const;

const PRESETS = presetsFrom(
  [
    { ...show, id: "feature-51", label: "FEATURE", format: "5.1" },
    { ...show, id: "trailers-51", label: "TRAILERS", format: "5.1", faderMark: 41 },
    { ...show, id: "advertising", label: "ADVERTS", format: "5.1", faderMark: 39 },
    {
      ...program,
      id: "disc-stereo",
      label: "DISC",
      sourceId: "disc",
      levelDb: -2,
      delayMs: 30,
      faderMark: 40,
    },
    { ...program, id: "music", label: "MUSIC", sourceId: "music", levelDb: -6, faderMark: 22 },
    { ...program, id: "microphone", label: "MIC", sourceId: "microphone", format: "mono", faderMark: 30 },
  ],
  SOURCES,
  CHANNELS,
);

const LOUDSPEAKERS: readonly Loudspeaker[] = [
  twoWay({ id: "left", label: "Screen left", placement: "screen-left", distanceM: DISTANCES_M.left }),
  twoWay({ id: "center", label: "Screen center", placement: "screen-center", distanceM: DISTANCES_M.center }),
  twoWay({ id: "right", label: "Screen right", placement: "screen-right", distanceM: DISTANCES_M.right }),
  subwoofer({ id: "sub-1", label: "Sub", placement: "subwoofer", distanceM: DISTANCES_M.sub, boxes: 1 }),
  surroundArray({
    id: "ls",
    label: "Left surrounds",
    placement: "surround-left",
    distanceM: DISTANCES_M.surround,
    boxes: 4,
  }),
  surroundArray({
    id: "rs",
    label: "Right surrounds",
    placement: "surround-right",
    distanceM: DISTANCES_M.surround,
    boxes: 4,
  }),
];

/** Butterworth of order 3 at 800 Hz: 18 dB per octave, the hf way inverted. */
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
    splits: [crossover("butterworth", 3, 800)],
    ways: [
      {
        wayId: "lf",
        gainDb: -7,
        alignMs: 0.4,
        filters: [bell(160, -2, 2), bell(500, -1.5, 1.4)],
        limiter: limiterAt(-5, 10, 200),
      },
      {
        wayId: "hf",
        gainDb: -16,
        alignMs: 0,
        filters: [bell(1250, -2.5, 1.4), bell(3500, -1.5, 2), highShelf(6300, 5, { slope: 0.5 })],
        limiter: limiterAt(-9, 0.5, 50),
      },
    ],
  }).map((output) => ({ ...output, label: output.label.toUpperCase() }));
}

function surroundOutput(id: string, label: string, channel: ChannelLabel, connector: number): Output {
  return singleOutput({
    id,
    label,
    connector,
    feeds: { kind: "loudspeaker", loudspeakerId: id, wayId: "full" },
    mix: [{ channelId: channel, gainDb: 0 }],
    highPass: crossover("butterworth", 2, 80),
    filters: [highShelf(10000, 1.5, { slope: 1 })],
    gainDb: -13,
    delayMs: 0,
    limiter: limiterAt(-6, 2, 200),
  });
}

function connectedOutputs(): Output[] {
  return [
    ...screenOutputs("left", "Left", "L", 1),
    ...screenOutputs("center", "Center", "C", 3),
    ...screenOutputs("right", "Right", "R", 5),
    singleOutput({
      id: "sub-1",
      label: "SUB",
      connector: 7,
      feeds: { kind: "loudspeaker", loudspeakerId: "sub-1", wayId: "sub" },
      mix: [{ channelId: "LFE", gainDb: 0 }],
      highPass: crossover("butterworth", 4, 25),
      lowPass: crossover("linkwitz-riley", 4, 120),
      filters: [bell(55, -2.5, 4)],
      gainDb: -6,
      delayMs: delayToArrive({
        farM: DISTANCES_M.center,
        nearM: DISTANCES_M.sub,
        afterMs: 0,
        temperatureC: TEMPERATURE_C,
      }),
      limiter: limiterAt(-3, 20, 500),
    }),
    surroundOutput("ls", "LS", "Ls", 9),
    surroundOutput("rs", "RS", "Rs", 10),
    ...feedOutputs({
      connectors: [13, 14, 16],
      labels: ["HI", "VIN", "MONITOR"],
      monitored: ["L", "R", "C", "LFE", "Ls", "Rs"],
      limiters: { headset: HEADSET_LIMITER, monitor: limiterAt(-12, 2, 200) },
    }),
  ];
}

/** Lantern Mill, screen 4: 5.1, 124 seats, bi-amplified, on the small unit. */
export function lanternMill4(): Configuration {
  const surroundMs = delayToArrive({
    farM: DISTANCES_M.center,
    nearM: DISTANCES_M.surround,
    afterMs: 14,
    temperatureC: TEMPERATURE_C,
  });
  const levelsDb: Partial<Record<ChannelLabel, number>> = { L: -0.5, R: -0.5, LFE: -1, Ls: -0.5, Rs: -1 };
  const outputs = connectedOutputs();
  const eq = { room: ROOM, channels: CHANNELS };
  return settleOn(dunlin16, {
    $schema: "../../../schemas/configuration.schema.json",
    kind: "boothkeep.configuration",
    schemaVersion: "1.0.0",
    screen: {
      siteId: "lantern-mill",
      siteName: "Lantern Mill",
      screenId: "screen-4",
      screenName: "Screen 4",
      format: "5.1",
      seats: 124,
      temperatureC: TEMPERATURE_C,
      videoLatencyMs: 42,
      geometry: { lengthM: 16.8, widthM: 11.4, heightM: 5.9 },
    },
    unit: {
      profileId: "dunlin-16",
      profileRevision: "1.0.0",
      serial: "D16-10266",
      firmware: "1.6.0",
      sampleRateHz: 48000,
      label: "SCREEN 4",
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
      octaveEqSet({ id: "feature", label: "FEATURE", purpose: "feature", ...eq }),
      octaveEqSet({ id: "event", label: "EVENT", purpose: "event", ...eq }),
    ],
    presets: PRESETS,
    loudspeakers: LOUDSPEAKERS,
    outputs: [
      ...outputs,
      ...spareOutputs(16, outputs).map((output) => ({ ...output, label: output.label.toUpperCase() })),
    ],
    operation: usualOperation({ faderMark: 45, alarm: "contact-05" }),
    automation: [
      ...contactItems([
        { label: "TRAILERS", action: recall("trailers-51") },
        { label: "FEATURE", action: recall("feature-51") },
        { label: "MUSIC", action: recall("music") },
      ]),
      ...serialRecalls(PRESETS, "rs232-01"),
    ],
    network: fixedNetwork({
      hostname: "lantern-mill-4-sound",
      host: 24,
      audio: false,
      labels: ["CONTROL", ""],
    }),
    calibration: {
      date: "2026-03-19",
      by: "Alignment team",
      equalizationId: "feature",
      microphonePositions: [
        { id: "p1", xM: 0, yM: 11, zM: 1.2 },
        { id: "p2", xM: -1.9, yM: 9.6, zM: 1.2 },
        { id: "p3", xM: 2.2, yM: 12.8, zM: 1.2 },
        { id: "p4", xM: -2.6, yM: 13.4, zM: 1.2 },
      ],
      channels: calibrated(ROOM, CHANNELS),
    },
    notes: "Invented data. Never load into a real unit.",
  });
}
