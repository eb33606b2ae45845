import type {
  ChannelLabel,
  Configuration,
  Crossover,
  Loudspeaker,
  MicrophonePosition,
  Network,
  Output,
  Preset,
  ProgramChannel,
  Screen,
  Source,
  Unit,
} from "../../../src/model/index.ts";
import { delayToArrive } from "./arrival.ts";
import { contactItems, networkItems, recall, serialRecalls } from "./automation.ts";
import { calibrated } from "./calibration.ts";
import { crossover } from "./crossovers.ts";
import { graphicEqSet } from "./equalizers.ts";
import { bell, highShelf, lowShelf } from "./filters.ts";
import { subwoofer, surroundArray, threeWay } from "./loudspeakers.ts";
import { activeOutputs, limiterAt, singleOutput, spareOutputs, type WaySetting } from "./outputs.ts";
import { type PresetWish, presetsFrom } from "./presets.ts";
import { dcpSource, labelledSource } from "./sources.ts";

/** What tells one large 7.1DS auditorium from another. */
export interface LargeAuditorium {
  readonly screen: Screen;
  readonly unit: Unit;
  readonly network: Network;
  /** Distances from the reference seat to the nearest cabinet, in metres. */
  readonly distancesM: {
    readonly left: number;
    readonly center: number;
    readonly right: number;
    readonly subs: readonly [number, number];
    /** Front half and rear half of each side array. */
    readonly side: readonly [number, number];
    readonly rear: number;
  };
  /** Cabinets in each half of a side array, and in each half of a rear array. */
  readonly boxes: { readonly side: number; readonly rear: number };
  /** How much later than the screen the surrounds arrive at the reference seat, in ms. */
  readonly surroundAfterMs: number;
  /** lf to mf, mf to hf. */
  readonly splits: readonly [Crossover, Crossover];
  readonly levelsDb: Readonly<Partial<Record<ChannelLabel, number>>>;
  readonly trimsDb: { readonly lf: number; readonly mf: number; readonly hf: number };
  readonly presets: readonly PresetWish[];
  readonly calibration: { readonly date: string; readonly positions: readonly MicrophonePosition[] };
  readonly notes: string;
}

const CHANNELS: readonly ChannelLabel[] = ["L", "R", "C", "LFE", "Lss", "Rss", "Lrs", "Rrs", "HI", "VIN"];
const OUTPUTS = 28;

/** The rear cabinets near the center line hang this much farther from the reference seat than those in the corners. */
const WALL_BEYOND_CORNER_M = 1.4;

/** Sources of a large auditorium: server, event network, disc player, guest reader, music, microphone. */
export const LARGE_SOURCES: readonly Source[] = [
  dcpSource({ id: "dcp", label: "Server", kind: "aes3", latencyMs: 0, connectors: "aes-in", count: 16 }),
  labelledSource({
    id: "event",
    label: "Event network",
    kind: "aes67",
    latencyMs: 24,
    connectors: "net-in",
    carries: ["L", "C", "R", "Ls", "Rs", "LFE", "unused", "unused"],
  }),
  labelledSource({
    id: "disc",
    label: "Disc player",
    kind: "spdif",
    latencyMs: 0,
    connectors: "spdif-in",
    carries: ["L", "R"],
  }),
  labelledSource({
    id: "guest",
    label: "Guest reader",
    kind: "analog-multichannel",
    latencyMs: 0,
    connectors: "analog-in",
    carries: ["L", "R", "C", "LFE", "Ls", "Rs"],
    gainDb: 1.5,
  }),
  labelledSource({
    id: "music",
    label: "Music player",
    kind: "analog-stereo",
    latencyMs: 0,
    connectors: "stereo-in",
    carries: ["L", "R"],
    gainDb: -2,
  }),
  labelledSource({
    id: "microphone",
    label: "House microphone",
    kind: "microphone",
    latencyMs: 0,
    connectors: "mic-in",
    carries: ["mono"],
    gainDb: 6,
  }),
];

/**
 * A large 7.1DS auditorium on a Gabbro 28: three screen channels with three amplified ways each, side arrays in two
 * halves, rear arrays in two halves, two subwoofers, headset feeds and a booth monitor. Numbers are wishes: they are
 * not yet on the unit's steps.
 */
export function largeAuditorium(hall: LargeAuditorium): Configuration {
  const presets = presetsFrom(hall.presets, LARGE_SOURCES, CHANNELS);
  const outputs = connectedOutputs(hall);
  return {
    $schema: "../../../schemas/configuration.schema.json",
    kind: "boothkeep.configuration",
    schemaVersion: "1.0.0",
    screen: hall.screen,
    unit: hall.unit,
    sources: LARGE_SOURCES,
    channels: programChannels(hall),
    equalizations: eqSets(hall),
    presets,
    loudspeakers: loudspeakers(hall),
    outputs: [...outputs, ...spareOutputs(OUTPUTS, outputs)],
    operation: {
      faderMark: 80,
      startPresetId: "feature-51",
      emergencyMute: { enabled: true, connectorId: "alarm-01", activeWhen: "open", release: "by-hand" },
      nonSync: { sourceId: "music", presetId: "music" },
      paging: { sourceId: "microphone", presetId: "microphone", programDuckDb: 20 },
      boothMonitor: { outputId: "monitor", levelDb: -12 },
      hearingImpaired: { outputId: "hearing", levelDb: -6, whenAbsent: "program-mix" },
      narration: { outputId: "narration", levelDb: -6 },
    },
    automation: automation(presets),
    network: hall.network,
    calibration: {
      date: hall.calibration.date,
      by: "Alignment team",
      equalizationId: "feature",
      microphonePositions: hall.calibration.positions,
      channels: calibrated(roomOf(hall), CHANNELS),
      notes: "Power average over the positions, pink noise at -20 dBFS RMS, one channel at a time.",
    },
    notes: hall.notes,
  };
}

function roomOf({ screen }: LargeAuditorium): string {
  return `${screen.siteId}/${screen.screenId}`;
}

function programChannels(hall: LargeAuditorium): ProgramChannel[] {
  const { center, side, rear } = hall.distancesM;
  const surround = (nearM: number) =>
    delayToArrive({
      farM: center,
      nearM,
      afterMs: hall.surroundAfterMs,
      temperatureC: hall.screen.temperatureC,
    });
  const sideMs = surround(Math.max(...side));
  const rearMs = surround(rear + WALL_BEYOND_CORNER_M);
  const delays: Partial<Record<ChannelLabel, number>> = {
    Lss: sideMs,
    Rss: sideMs,
    Lrs: rearMs,
    Rrs: rearMs,
  };
  return CHANNELS.map((label) => ({
    id: label,
    label,
    levelDb: hall.levelsDb[label] ?? 0,
    delayMs: delays[label] ?? 0,
    mute: false,
  }));
}

function eqSets(hall: LargeAuditorium) {
  const shared = { room: roomOf(hall), channels: CHANNELS };
  return [
    graphicEqSet({ id: "feature", label: "Feature", purpose: "feature", ...shared }),
    graphicEqSet({ id: "event", label: "Event and music", purpose: "event", ...shared }),
    graphicEqSet({ id: "speech", label: "Speech", purpose: "speech", ...shared }),
    graphicEqSet({ id: "archive", label: "Archive", purpose: "archive", ...shared }),
  ];
}

function loudspeakers({ distancesM, boxes }: LargeAuditorium): Loudspeaker[] {
  const [sideFront, sideRear] = distancesM.side;
  const side = (id: string, label: string, placement: Loudspeaker["placement"], distanceM: number) =>
    surroundArray({ id, label, placement, distanceM, boxes: boxes.side });
  const rear = (id: string, label: string, placement: Loudspeaker["placement"], distanceM: number) =>
    surroundArray({ id, label, placement, distanceM, boxes: boxes.rear });
  return [
    threeWay({ id: "left", label: "Screen left", placement: "screen-left", distanceM: distancesM.left }),
    threeWay({
      id: "center",
      label: "Screen center",
      placement: "screen-center",
      distanceM: distancesM.center,
    }),
    threeWay({ id: "right", label: "Screen right", placement: "screen-right", distanceM: distancesM.right }),
    subwoofer({
      id: "sub-1",
      label: "Sub left",
      placement: "subwoofer",
      distanceM: distancesM.subs[0],
      boxes: 2,
    }),
    subwoofer({
      id: "sub-2",
      label: "Sub right",
      placement: "subwoofer",
      distanceM: distancesM.subs[1],
      boxes: 2,
    }),
    side("lss-front", "Left side, front half", "surround-left-side", sideFront),
    side("lss-rear", "Left side, rear half", "surround-left-side", sideRear),
    side("rss-front", "Right side, front half", "surround-right-side", sideFront),
    side("rss-rear", "Right side, rear half", "surround-right-side", sideRear),
    rear("lrs-wall", "Left rear, wall", "surround-left-rear", distancesM.rear + WALL_BEYOND_CORNER_M),
    rear("lrs-corner", "Left rear, corner", "surround-left-rear", distancesM.rear),
    rear("rrs-wall", "Right rear, wall", "surround-right-rear", distancesM.rear + WALL_BEYOND_CORNER_M),
    rear("rrs-corner", "Right rear, corner", "surround-right-rear", distancesM.rear),
  ];
}

function connectedOutputs(hall: LargeAuditorium): Output[] {
  return [
    ...screenOutputs(hall, { id: "left", label: "Left", channel: "L", connector: 1, trimDb: -0.2 }),
    ...screenOutputs(hall, { id: "center", label: "Center", channel: "C", connector: 5, trimDb: 0 }),
    ...screenOutputs(hall, { id: "right", label: "Right", channel: "R", connector: 9, trimDb: 0.1 }),
    ...subOutputs(hall),
    ...surroundOutputs(hall),
    ...feedOutputs(),
  ];
}

function screenOutputs(
  hall: LargeAuditorium,
  place: {
    readonly id: string;
    readonly label: string;
    readonly channel: ChannelLabel;
    readonly connector: number;
    readonly trimDb: number;
  },
): Output[] {
  const { lf, mf, hf } = hall.trimsDb;
  const ways: readonly WaySetting[] = [
    {
      wayId: "lf",
      gainDb: lf,
      alignMs: 0.62,
      filters: [bell(48, 1.5, 1.4), bell(165, -2.2, 2)],
      limiter: limiterAt(-4, 10, 200),
    },
    {
      wayId: "mf",
      gainDb: mf,
      alignMs: 0.21,
      filters: [bell(430, -1.8, 1.2), bell(780, -2.6, 2.5), bell(1350, 1.2, 2)],
      limiter: limiterAt(-6, 2, 100),
    },
    {
      wayId: "hf",
      gainDb: hf,
      alignMs: 0,
      filters: [
        bell(1900, -2.4, 1.8),
        bell(3600, -1.5, 3),
        highShelf(6300, 5.5, { q: 0.6 }),
        bell(12500, 2, 2.5),
      ],
      limiter: limiterAt(-9, 0.5, 50),
    },
  ];
  return activeOutputs({
    loudspeakerId: place.id,
    label: place.label,
    channel: place.channel,
    firstConnector: place.connector,
    protection: crossover("butterworth", 4, 30),
    splits: hall.splits,
    ways,
    trimDb: place.trimDb,
  });
}

function subOutputs({ distancesM, screen }: LargeAuditorium): Output[] {
  return distancesM.subs.map((nearM, index) => {
    const number = index + 1;
    return singleOutput({
      id: `sub-${number}`,
      label: `Sub ${number}`,
      connector: 12 + number,
      feeds: { kind: "loudspeaker", loudspeakerId: `sub-${number}`, wayId: "sub" },
      mix: [{ channelId: "LFE", gainDb: 0 }],
      highPass: crossover("butterworth", 6, 24),
      lowPass: crossover("linkwitz-riley", 4, 120),
      filters: [bell(29, 2, 1.6), bell(52, -3.5, 4)],
      gainDb: -6.5,
      delayMs: delayToArrive({
        farM: distancesM.center,
        nearM,
        afterMs: 0,
        temperatureC: screen.temperatureC,
      }),
      limiter: limiterAt(-3, 20, 500),
    });
  });
}

function surroundOutputs(hall: LargeAuditorium): Output[] {
  const { side, rear } = hall.distancesM;
  const farthestSide = Math.max(...side);
  const nearer = (farM: number, nearM: number) =>
    delayToArrive({ farM, nearM, afterMs: 0, temperatureC: hall.screen.temperatureC });
  const output = (
    id: string,
    label: string,
    channel: ChannelLabel,
    connector: number,
    gainDb: number,
    delayMs: number,
  ) =>
    singleOutput({
      id,
      label,
      connector,
      feeds: { kind: "loudspeaker", loudspeakerId: id, wayId: "full" },
      mix: [{ channelId: channel, gainDb: 0 }],
      highPass: crossover("butterworth", 2, 63),
      filters: [lowShelf(125, 1.5, { q: 0.7 }), bell(2800, -1.5, 1.6), highShelf(10000, 1.5, { q: 0.7 })],
      gainDb,
      delayMs,
      limiter: limiterAt(-6, 5, 200),
    });
  return [
    output("lss-front", "Lss front", "Lss", 17, -9.4, nearer(farthestSide, side[0])),
    output("lss-rear", "Lss rear", "Lss", 18, -10.2, nearer(farthestSide, side[1])),
    output("rss-front", "Rss front", "Rss", 19, -9.2, nearer(farthestSide, side[0])),
    output("rss-rear", "Rss rear", "Rss", 20, -10.1, nearer(farthestSide, side[1])),
    output("lrs-wall", "Lrs wall", "Lrs", 21, -8.8, 0),
    output("lrs-corner", "Lrs corner", "Lrs", 22, -9.6, nearer(rear + WALL_BEYOND_CORNER_M, rear)),
    output("rrs-wall", "Rrs wall", "Rrs", 23, -8.9, 0),
    output("rrs-corner", "Rrs corner", "Rrs", 24, -9.5, nearer(rear + WALL_BEYOND_CORNER_M, rear)),
  ];
}

/** HI, narration and booth monitor: the fourth connector. */
function feedOutputs(): Output[] {
  const headset = {
    highPass: crossover("butterworth", 2, 100),
    lowPass: crossover("butterworth", 2, 10000),
    filters: [bell(2500, 1.5, 0.9)],
    gainDb: -6,
    delayMs: 0,
    limiter: limiterAt(-10, 1, 200),
  } as const;
  return [
    singleOutput({
      id: "hearing",
      label: "HI transmitter",
      connector: 25,
      feeds: { kind: "hearing-impaired" },
      mix: [{ channelId: "HI", gainDb: 0 }],
      ...headset,
    }),
    singleOutput({
      id: "narration",
      label: "VIN transmitter",
      connector: 26,
      feeds: { kind: "narration" },
      mix: [{ channelId: "VIN", gainDb: 0 }],
      ...headset,
    }),
    singleOutput({
      id: "monitor",
      label: "Booth monitor",
      connector: 27,
      feeds: { kind: "booth-monitor" },
      mix: (["L", "R", "C", "LFE", "Lss", "Rss", "Lrs", "Rrs"] as const).map((channelId) => ({
        channelId,
        gainDb: channelId === "LFE" ? -24 : -20,
      })),
      highPass: crossover("butterworth", 2, 90),
      filters: [bell(250, -2, 1)],
      gainDb: -6,
      delayMs: 0,
      limiter: limiterAt(-12, 5, 200),
    }),
  ];
}

function automation(presets: readonly Preset[]) {
  return [
    ...contactItems([
      { label: "Trailers", action: recall("trailers-51") },
      { label: "Feature 5.1", action: recall("feature-51") },
      { label: "Feature 7.1DS", action: recall("feature-71") },
      { label: "Music", action: recall("music") },
      { label: "Mute", action: { kind: "mute" } },
      { label: "End of mute", action: { kind: "unmute" } },
    ]),
    ...serialRecalls(presets),
    ...networkItems([
      ...presets.map(({ id, label, slot }) => ({ id, label, text: `show ${slot}`, action: recall(id) })),
      { id: "mute", label: "Mute", text: "sound off", action: { kind: "mute" } },
      { id: "unmute", label: "End of mute", text: "sound on", action: { kind: "unmute" } },
      {
        id: "fader-reference",
        label: "Fader reference",
        text: "level reference",
        action: { kind: "set-fader", faderMark: 80 },
      },
      {
        id: "fader-low",
        label: "Fader low",
        text: "level low",
        action: { kind: "set-fader", faderMark: 65 },
      },
      {
        id: "source-disc",
        label: "Disc player",
        text: "source disc",
        action: { kind: "select-source", sourceId: "disc" },
      },
    ]),
  ];
}
