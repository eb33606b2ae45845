import type {
  AutomationItem,
  ChannelEq,
  ChannelLabel,
  Configuration,
  EqBand,
  Loudspeaker,
  Output,
  Source,
} from "../../../src/model/index.ts";
import { recall } from "../builders/automation.ts";
import { calibrated } from "../builders/calibration.ts";
import { crossover } from "../builders/crossovers.ts";
import { feedOutputs, usualOperation } from "../builders/feeds.ts";
import { bell } from "../builders/filters.ts";
import { subwoofer, surroundArray, twoWay } from "../builders/loudspeakers.ts";
import { fixedNetwork } from "../builders/network.ts";
import { activeOutputs, limiterAt, singleOutput, spareOutputs } from "../builders/outputs.ts";
import { presetsFrom } from "../builders/presets.ts";
import { settleOn } from "../builders/settle.ts";
import { dcpSource, labelledSource } from "../builders/sources.ts";
import { curlew24 } from "./profile.ts";

const CHANNELS: readonly ChannelLabel[] = ["L", "R", "C", "LFE", "Ls", "Rs", "HI", "VIN"];
const ROOM = "tern-quay/screen-3";

const SOURCES: readonly Source[] = [
  dcpSource({ id: "dcp", label: "Server", kind: "aes3", latencyMs: 0, connectors: "aes", count: 8 }),
  labelledSource({
    id: "event",
    label: "Event network",
    kind: "aes67",
    latencyMs: 20,
    connectors: "net",
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "archive",
    label: "Archive player",
    kind: "analog-multichannel",
    latencyMs: 0,
    connectors: "line",
    carries: ["L", "R", "C", "LFE", "Ls", "Rs"],
    gainDb: -1,
  }),
  labelledSource({
    id: "disc",
    label: "Disc",
    kind: "spdif",
    latencyMs: 0,
    connectors: "coax",
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "music",
    label: "Music",
    kind: "analog-stereo",
    latencyMs: 0,
    connectors: "line",
    from: 7,
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "microphone",
    label: "Microphone",
    kind: "microphone",
    latencyMs: 0,
    connectors: "voice",
    carries: ["mono"],
    gainDb: 3,
  }),
];

const show = { equalizationId: "feature", format: "5.1", delayMs: 20, faderMark: 46 } as const;
const stereo = { equalizationId: "event", format: "stereo", delayMs: 0 } as const;

const PRESETS = presetsFrom(
  [
    { ...show, id: "feature-51", label: "Feature", sourceId: "dcp" },
    {
      ...show,
      id: "trailers-51",
      label: "Trailers",
      sourceId: "dcp",
      levelDb: -4,
      reason: "Trailers are mixed louder than features.",
    },
    { ...show, id: "archive-51", label: "Archive 5.1", sourceId: "archive" },
    { ...stereo, id: "event-stereo", label: "Event", sourceId: "event", levelDb: -1 },
    { ...stereo, id: "disc-stereo", label: "Disc", sourceId: "disc", delayMs: 30, levelDb: -2 },
    { ...stereo, id: "music", label: "Music", sourceId: "music", levelDb: -8, faderMark: 30 },
    {
      id: "microphone",
      label: "Microphone",
      sourceId: "microphone",
      format: "mono",
      equalizationId: "event",
      delayMs: 0,
      levelDb: -4,
      faderMark: 34,
    },
  ],
  SOURCES,
  CHANNELS,
);

const LOUDSPEAKERS: readonly Loudspeaker[] = [
  twoWay({ id: "left", label: "Left", placement: "screen-left", distanceM: 12.4 }),
  twoWay({ id: "center", label: "Center", placement: "screen-center", distanceM: 12 }),
  twoWay({ id: "right", label: "Right", placement: "screen-right", distanceM: 12.4 }),
  subwoofer({ id: "sub", label: "Sub", placement: "subwoofer", distanceM: 11.8, boxes: 1 }),
  surroundArray({ id: "ls", label: "Left surrounds", placement: "surround-left", distanceM: 6.1, boxes: 4 }),
  surroundArray({
    id: "rs",
    label: "Right surrounds",
    placement: "surround-right",
    distanceM: 6.1,
    boxes: 4,
  }),
];

function screenOutputs(loudspeakerId: string, label: string, channel: ChannelLabel, first: number): Output[] {
  return activeOutputs({
    loudspeakerId,
    label,
    channel,
    firstConnector: first,
    protection: crossover("butterworth", 4, 35),
    splits: [crossover("linkwitz-riley", 4, 800)],
    ways: [
      {
        wayId: "lf",
        gainDb: -7,
        alignMs: 0.4,
        filters: [bell(160, -2, 2)],
        limiter: limiterAt(-5, 10, 200),
      },
      {
        wayId: "hf",
        gainDb: -16,
        alignMs: 0,
        filters: [bell(1250, -2.5, 1.4)],
        limiter: limiterAt(-9, 0.5, 50),
      },
    ],
  });
}

function surroundOutput(id: string, label: string, channel: ChannelLabel, connector: number): Output {
  return singleOutput({
    id,
    label,
    connector,
    feeds: { kind: "loudspeaker", loudspeakerId: id, wayId: "full" },
    mix: [{ channelId: channel, gainDb: 0 }],
    highPass: { family: "bessel", order: 3, frequencyHz: 80, normalization: "phase" },
    filters: [bell(250, -1.5, 1)],
    gainDb: -13,
    delayMs: 0,
    limiter: limiterAt(-6, 2, 200),
  });
}

/** Every kind of filter, each switched on in so many words. Mild where it can be, since all of them are in series. */
function everyKind(shelf: { readonly q: number } | { readonly slope: number }): EqBand[] {
  const on = { enabled: true } as const;
  return [
    { id: "b1", kind: "peaking", ...on, frequencyHz: 400, gainDb: -2, q: 1.4 },
    { id: "b2", kind: "low-shelf", ...on, frequencyHz: 160, gainDb: -3, ...shelf },
    { id: "b3", kind: "high-shelf", ...on, frequencyHz: 6300, gainDb: -1.5, ...shelf },
    { id: "b4", kind: "high-pass", ...on, frequencyHz: 80, q: 0.7 },
    { id: "b5", kind: "low-pass", ...on, frequencyHz: 10000, q: 0.7 },
    { id: "b6", kind: "band-pass", ...on, frequencyHz: 1000, q: 0.3 },
    { id: "b7", kind: "notch", ...on, frequencyHz: 1600, q: 12 },
    { id: "b8", kind: "all-pass", ...on, frequencyHz: 630, order: 2, q: 0.8 },
    { id: "b9", kind: "all-pass", ...on, frequencyHz: 2500, order: 1 },
  ];
}

/** Five coefficients that add up to 1. */
const FIR = { taps: [0.04, 0.08, 0.76, 0.08, 0.04], enabled: true } as const;

function connectedOutputs(): Output[] {
  const [hearing, narration, monitor] = feedOutputs({
    connectors: [19, 20, 21],
    labels: ["Headsets HI", "Headsets VI-N", "Booth monitor"],
    monitored: ["L", "R", "C"],
    limiters: { headset: limiterAt(-10, 2, 200), monitor: limiterAt(-8, 2, 200) },
  });
  return [
    ...screenOutputs("left", "Left", "L", 1),
    ...screenOutputs("center", "Center", "C", 3),
    ...screenOutputs("right", "Right", "R", 5),
    singleOutput({
      id: "sub",
      label: "Sub",
      connector: 7,
      feeds: { kind: "loudspeaker", loudspeakerId: "sub", wayId: "sub" },
      mix: [{ channelId: "LFE", gainDb: 0 }],
      highPass: crossover("butterworth", 4, 25),
      lowPass: crossover("linkwitz-riley", 4, 120),
      filters: [bell(45, -2, 3)],
      gainDb: -6,
      delayMs: 0,
      limiter: limiterAt(-4, 20, 400),
    }),
    surroundOutput("ls", "Left surrounds", "Ls", 8),
    surroundOutput("rs", "Right surrounds", "Rs", 9),
    { ...hearing!, fir: FIR },
    { ...narration!, filters: everyKind({ q: 0.7 }) },
    {
      ...monitor!,
      lowPass: { family: "bessel", order: 4, frequencyHz: 12000, normalization: "phase" },
    },
  ];
}

function channelEq(label: ChannelLabel): ChannelEq {
  if (label === "VIN") return { channelId: label, parametric: everyKind({ slope: 1 }) };
  const gainsDb = label === "LFE" ? [0, -1, -1, 0, 0, 0, 0, 0, 0, 0] : [0, -1, -2, -1, 0, 0, 0.5, 1, 1.5, 1];
  return {
    channelId: label,
    graphic: { layout: "octave-10", gainsDb, enabled: true },
    parametric: [{ id: "b1", kind: "peaking", frequencyHz: 63, gainDb: -2, q: 4 }],
  };
}

const AUTOMATION: readonly AutomationItem[] = [
  {
    id: "trailers",
    label: "Trailers",
    trigger: { kind: "contact", connectorId: "switch-01", edge: "closing" },
    action: recall("trailers-51"),
    waitMs: 500,
  },
  {
    id: "feature",
    label: "Feature",
    trigger: { kind: "contact", connectorId: "switch-02", edge: "closing" },
    action: recall("feature-51"),
  },
  {
    id: "door",
    label: "Booth door open",
    trigger: { kind: "contact", connectorId: "switch-03", edge: "opening" },
    action: { kind: "mute" },
  },
  {
    id: "serial-on",
    label: "Sound on",
    trigger: { kind: "serial", connectorId: "line-control-01", text: "SOUND ON" },
    action: { kind: "unmute" },
  },
  {
    id: "serial-low",
    label: "Low level",
    trigger: { kind: "serial", connectorId: "line-control-01", text: "SOUND LOW" },
    action: { kind: "set-fader", faderMark: 35 },
  },
  {
    id: "network-music",
    label: "Music",
    trigger: { kind: "network", interfaceId: "control", text: "music" },
    action: { kind: "select-source", sourceId: "music" },
  },
  {
    id: "network-feature",
    label: "Feature by network",
    trigger: { kind: "network", interfaceId: "control", text: "feature" },
    action: recall("feature-51"),
  },
];

/** Tern Quay, screen 3: a small 5.1 screen with at least one of whatever the schema knows. */
export function ternQuay3(): Configuration {
  const outputs = connectedOutputs();
  return settleOn(curlew24, {
    $schema: "../../schemas/configuration.schema.json",
    kind: "boothkeep.configuration",
    schemaVersion: "1.0.0",
    screen: {
      siteId: "tern-quay",
      siteName: "Tern Quay",
      screenId: "screen-3",
      screenName: "Screen 3",
      format: "5.1",
      seats: 148,
      temperatureC: 21,
      videoLatencyMs: 45,
      geometry: { lengthM: 18.2, widthM: 12.1, heightM: 6.4 },
      notes: "Invented data.",
    },
    unit: {
      profileId: "curlew-24",
      profileRevision: "1.0.0",
      serial: "C24-0000044",
      firmware: "1.3.0",
      sampleRateHz: 48000,
      label: "Quay 3",
    },
    sources: SOURCES,
    channels: CHANNELS.map((label) => ({
      id: label,
      label,
      levelDb: label === "Ls" || label === "Rs" ? -0.5 : 0,
      delayMs: label === "Ls" || label === "Rs" ? 33 : 0,
      mute: false,
    })),
    equalizations: [
      { id: "feature", label: "Feature", channels: CHANNELS.map(channelEq) },
      {
        id: "event",
        label: "Event",
        channels: CHANNELS.filter((label) => label !== "VIN").map((label) => ({
          channelId: label,
          parametric: [{ id: "b1", kind: "peaking", frequencyHz: 125, gainDb: -2.5, q: 2 }],
        })),
      },
    ],
    presets: PRESETS,
    loudspeakers: LOUDSPEAKERS,
    outputs: [...outputs, ...spareOutputs(24, outputs)],
    operation: usualOperation({ faderMark: 46, alarm: "switch-10" }),
    automation: AUTOMATION,
    network: fixedNetwork({ hostname: "tern-quay-3-sound", host: 130, audio: true }),
    calibration: {
      date: "2026-03-03",
      by: "Alignment team",
      equalizationId: "feature",
      microphonePositions: [
        { id: "p1", xM: 0, yM: 11.9, zM: 1.2 },
        { id: "p2", xM: -1.9, yM: 10.4, zM: 1.2 },
        { id: "p3", xM: 2.1, yM: 13.2, zM: 1.2 },
        { id: "p4", xM: 2.8, yM: 9.3, zM: 1.2 },
      ],
      channels: calibrated(ROOM, CHANNELS),
      notes: "Curtains open.",
    },
    notes: "Invented data. Never load into a real unit.",
  });
}
