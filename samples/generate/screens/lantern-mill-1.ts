import type { Configuration } from "../../../src/model/index.ts";
import { crossover } from "../builders/crossovers.ts";
import { largeAuditorium } from "../builders/large/auditorium.ts";
import { fixedNetwork } from "../builders/network.ts";
import type { PresetWish } from "../builders/presets.ts";
import { settleOn } from "../builders/settle.ts";
import { skarn30 } from "../profiles/skarn-30.ts";

const show = { sourceId: "dcp", equalizationId: "feature", delayMs: 10, faderMark: 80 } as const;

const presets: readonly PresetWish[] = [
  { ...show, id: "feature-51", label: "Feature 5.1", format: "5.1" },
  { ...show, id: "feature-71", label: "Feature 7.1DS", format: "7.1DS" },
  {
    ...show,
    id: "trailers-51",
    label: "Trailers 5.1",
    format: "5.1",
    levelDb: -3.5,
    reason: "Trailers are mixed louder than features.",
  },
  {
    ...show,
    id: "trailers-71",
    label: "Trailers 7.1DS",
    format: "7.1DS",
    levelDb: -3.5,
    reason: "Trailers are mixed louder than features.",
  },
  {
    ...show,
    id: "advertising",
    label: "Advertising 5.1",
    format: "5.1",
    levelDb: -5,
    reason: "House level for commercials.",
  },
  {
    ...show,
    id: "relaxed",
    label: "Relaxed show 5.1",
    format: "5.1",
    levelDb: -6,
    reason: "Relaxed screenings play 6 dB lower.",
  },
  {
    ...show,
    id: "festival-51",
    label: "Festival 5.1",
    format: "5.1",
    delayMs: 0,
    reason: "Festival prints are synchronized at the server.",
  },
  {
    ...show,
    id: "archive-mono",
    label: "Archive mono",
    format: "mono",
    equalizationId: "archive",
    levelDb: 1.5,
    reason: "Optical sound of old prints, transferred without correction.",
  },
  {
    id: "event-51",
    label: "Event 5.1",
    sourceId: "event",
    format: "5.1",
    equalizationId: "event",
    delayMs: 0,
    faderMark: 75,
  },
  {
    id: "event-loud",
    label: "Concert 5.1",
    sourceId: "event",
    format: "5.1",
    equalizationId: "event",
    levelDb: 2,
    delayMs: 0,
    faderMark: 80,
    reason: "Concerts play 2 dB above other events.",
  },
  {
    id: "disc-stereo",
    label: "Disc player stereo",
    sourceId: "disc",
    format: "stereo",
    equalizationId: "event",
    levelDb: -2,
    delayMs: 32.5,
    faderMark: 75,
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
    levelDb: -8,
    delayMs: 0,
    faderMark: 55,
  },
  {
    id: "microphone",
    label: "Microphone",
    sourceId: "microphone",
    format: "mono",
    equalizationId: "speech",
    levelDb: -4,
    delayMs: 0,
    faderMark: 68,
  },
];

/** Lantern Mill, screen 1: the large house, 412 seats, 7.1DS, as left after its alignment. */
export function lanternMill1(): Configuration {
  return settleOn(
    skarn30,
    largeAuditorium({
      screen: {
        siteId: "lantern-mill",
        siteName: "Lantern Mill",
        screenId: "screen-1",
        screenName: "Screen 1",
        format: "7.1DS",
        seats: 412,
        temperatureC: 21,
        videoLatencyMs: 42,
        geometry: { lengthM: 31.5, widthM: 21.8, heightM: 11.2 },
        notes: "Reference seat: two thirds back, on the center line.",
      },
      unit: {
        profileId: "skarn-30",
        profileRevision: "1.0.0",
        serial: "G28-004173",
        firmware: "2.4.1",
        sampleRateHz: 48000,
        label: "Lantern Mill 1",
      },
      network: fixedNetwork({ hostname: "lantern-mill-1-sound", host: 21, audio: true }),
      distancesM: {
        left: 22.4,
        center: 21.4,
        right: 22.4,
        subs: [21.2, 21.1],
        side: [12, 11.1],
        rear: [11.4, 13.1],
      },
      boxes: { side: 4, rear: 3 },
      surroundAfterMs: 15,
      splits: [crossover("linkwitz-riley", 4, 280), crossover("linkwitz-riley", 4, 1600)],
      levelsDb: {
        L: -0.4,
        R: -0.3,
        C: 0,
        LFE: -0.5,
        Lss: -0.6,
        Rss: -0.8,
        Lrs: -0.2,
        Rrs: -0.3,
        HI: 0,
        VIN: 0,
      },
      trimsDb: { lf: -9, mf: -12.2, hf: -16.7 },
      presets,
      calibration: {
        date: "2026-03-17",
        positions: [
          { id: "p1", xM: 0, yM: 20.5, zM: 1.2 },
          { id: "p2", xM: -3.4, yM: 18.2, zM: 1.2 },
          { id: "p3", xM: 3.1, yM: 22.4, zM: 1.2 },
          { id: "p4", xM: -5.2, yM: 24.6, zM: 1.2 },
          { id: "p5", xM: 4.8, yM: 15.7, zM: 1.2 },
        ],
      },
      notes: "Invented data. Never load into a real unit.",
    }),
  );
}
