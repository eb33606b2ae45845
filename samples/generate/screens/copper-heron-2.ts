import type { ChannelLabel, Configuration, Source } from "../../../src/model/index.ts";
import { delayToArrive } from "../builders/arrival.ts";
import { contactItems, networkItems, recall, serialRecalls } from "../builders/automation.ts";
import { calibrated } from "../builders/calibration.ts";
import { parametricEqSet } from "../builders/equalizers.ts";
import { usualOperation } from "../builders/feeds.ts";
import { fixedNetwork } from "../builders/network.ts";
import { spareOutputs } from "../builders/outputs.ts";
import { presetsFrom } from "../builders/presets.ts";
import { settleOn } from "../builders/settle.ts";
import { dcpSource, labelledSource } from "../builders/sources.ts";
import { whimbrel32 } from "../profiles/whimbrel-32.ts";
import {
  CHANNELS,
  connectedOutputs,
  DISTANCES_M,
  LOUDSPEAKERS,
  TEMPERATURE_C,
} from "./copper-heron-2-hall.ts";

const ROOM = "copper-heron/screen-2";

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
    gainDb: 6,
  }),
];

const show = { sourceId: "dcp", equalizationId: "feature", delayMs: 12, faderMark: 0 } as const;
const program = { equalizationId: "event", delayMs: 0 } as const;

const PRESETS = presetsFrom(
  [
    { ...show, id: "feature-51", label: "Feature 5.1", format: "5.1" },
    { ...show, id: "feature-sds", label: "Feature SDS", format: "7.1SDS" },
    {
      ...show,
      id: "trailers-51",
      label: "Trailers",
      format: "5.1",
      levelDb: -4,
      reason: "Trailers are mixed louder than features.",
    },
    {
      ...show,
      id: "advertising",
      label: "Advertising",
      format: "5.1",
      levelDb: -6,
      reason: "House level for commercials.",
    },
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
      levelDb: -4,
      faderMark: -12,
    },
  ],
  SOURCES,
  CHANNELS,
);

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
    operation: usualOperation({ faderMark: 0, alarm: "control-in-08" }),
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
    network: fixedNetwork({
      hostname: "copper-heron-2-sound",
      host: 82,
      audio: true,
      labels: ["Control", "Audio"],
    }),
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
