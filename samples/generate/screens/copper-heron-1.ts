import type { Configuration } from "../../../src/model/index.ts";
import { crossover } from "../builders/crossovers.ts";
import { largeAuditorium } from "../builders/large/auditorium.ts";
import { fixedNetwork } from "../builders/network.ts";
import type { PresetWish } from "../builders/presets.ts";
import { settleOn } from "../builders/settle.ts";
import { skarn30 } from "../profiles/skarn-30.ts";

const show = { sourceId: "dcp", equalizationId: "feature", delayMs: 8, faderMark: 80 } as const;

const presets: readonly PresetWish[] = [
  { ...show, id: "feature-51", label: "Feature 5.1", format: "5.1" },
  { ...show, id: "feature-71", label: "Feature 7.1DS", format: "7.1DS" },
  { ...show, id: "trailers-51", label: "Trailers 5.1", format: "5.1", faderMark: 73.5 },
  { ...show, id: "trailers-71", label: "Trailers 7.1DS", format: "7.1DS", faderMark: 73.5 },
  { ...show, id: "advertising", label: "Advertising 5.1", format: "5.1", faderMark: 70 },
  {
    ...show,
    id: "archive-mono",
    label: "Archive mono",
    format: "mono",
    equalizationId: "archive",
    levelDb: 2,
  },
  {
    id: "event-51",
    label: "Event 5.1",
    sourceId: "event",
    format: "5.1",
    equalizationId: "event",
    delayMs: 0,
    faderMark: 76,
  },
  {
    id: "disc-stereo",
    label: "Disc player stereo",
    sourceId: "disc",
    format: "stereo",
    equalizationId: "event",
    levelDb: -2.5,
    delayMs: 28,
    faderMark: 74,
  },
  {
    id: "guest-51",
    label: "Guest reader 5.1",
    sourceId: "guest",
    format: "5.1",
    equalizationId: "feature",
    delayMs: 4.2,
    faderMark: 80,
  },
  {
    id: "music",
    label: "Music",
    sourceId: "music",
    format: "stereo",
    equalizationId: "event",
    levelDb: -7,
    delayMs: 0,
    faderMark: 55,
  },
  {
    id: "music-loud",
    label: "Music for events",
    sourceId: "music",
    format: "stereo",
    equalizationId: "event",
    levelDb: 0,
    delayMs: 0,
    faderMark: 74,
    reason: "Live events in the house play music at full level.",
  },
  {
    id: "microphone",
    label: "Microphone",
    sourceId: "microphone",
    format: "mono",
    equalizationId: "speech",
    levelDb: -3,
    delayMs: 0,
    faderMark: 66,
  },
];

/** Copper Heron, screen 1: of the class of Lantern Mill 1, 365 seats, steeper slopes on the horns. */
export function copperHeron1(): Configuration {
  return settleOn(
    skarn30,
    largeAuditorium({
      screen: {
        siteId: "copper-heron",
        siteName: "Copper Heron",
        screenId: "screen-1",
        screenName: "Screen 1",
        format: "7.1DS",
        seats: 365,
        temperatureC: 20,
        videoLatencyMs: 42,
        geometry: { lengthM: 28.4, widthM: 19.6, heightM: 10.1 },
      },
      unit: {
        profileId: "skarn-30",
        profileRevision: "1.0.0",
        serial: "G28-003918",
        firmware: "2.3.0",
        sampleRateHz: 48000,
        label: "Copper Heron 1",
      },
      network: fixedNetwork({ hostname: "copper-heron-1-sound", host: 81, audio: true }),
      distancesM: {
        left: 20.2,
        center: 19.3,
        right: 20.2,
        subs: [19.1, 19.1],
        side: [11, 10.2],
        rear: [10.4, 12],
      },
      boxes: { side: 3, rear: 2 },
      surroundAfterMs: 14,
      splits: [crossover("linkwitz-riley", 4, 250), crossover("linkwitz-riley", 8, 2000)],
      levelsDb: {
        L: -1.1,
        R: -1,
        C: -0.7,
        LFE: -1,
        Lss: -1.2,
        Rss: -1.1,
        Lrs: -0.9,
        Rrs: -1.1,
        HI: 0,
        VIN: 0,
      },
      trimsDb: { lf: -9.2, mf: -12.1, hf: -16.8 },
      presets,
      calibration: {
        date: "2026-02-10",
        positions: [
          { id: "p1", xM: 0, yM: 18.5, zM: 1.2 },
          { id: "p2", xM: -3, yM: 16.1, zM: 1.2 },
          { id: "p3", xM: 2.8, yM: 20.3, zM: 1.2 },
          { id: "p4", xM: 4.4, yM: 14.2, zM: 1.2 },
        ],
      },
      notes: "Invented data. Never load into a real unit.",
    }),
  );
}
