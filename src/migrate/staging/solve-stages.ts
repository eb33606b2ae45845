import {
  middleOf,
  narrowestWindows,
  type Window,
  type WindowGroup,
  windowNearest,
} from "../smallest-window.ts";
import type { Candidate } from "./candidates.ts";

/** One output of a loudspeaker: a setting of its own, and for each program channel that it mixes another one. */
export interface OutputStage {
  readonly id: string;
  readonly own: readonly Candidate[];
  readonly channels: readonly { readonly channelId: string; readonly mix: readonly Candidate[] }[];
}

/** Outputs that have to keep together: the ways of one loudspeaker, or one feed. */
export interface SpeakerStage {
  readonly id: string;
  readonly outputs: readonly OutputStage[];
  /** True: it sounds in the room together with the others, so it is balanced against them. */
  readonly inRoom: boolean;
}

export interface ChannelStage {
  readonly id: string;
  readonly own: readonly Candidate[];
}

export interface StageProblem {
  readonly speakers: readonly SpeakerStage[];
  readonly channels: readonly ChannelStage[];
}

export interface StageSolution {
  /** Chosen setting of each output and of each of its channels. */
  readonly outputs: ReadonlyMap<string, number>;
  readonly mixes: ReadonlyMap<string, ReadonlyMap<string, number>>;
  readonly channels: ReadonlyMap<string, number>;
  /** Error of each channel up to the middle of its loudspeakers. */
  readonly channelErrors: ReadonlyMap<string, number>;
  /** Largest difference that came in between ways of one loudspeaker. */
  readonly betweenWays: number;
  /** Largest difference that came in between channels and loudspeakers. */
  readonly betweenChannels: number;
}

/**
 * Chooses settings from the loudspeakers back to the program channels so that
 * (1) inside every loudspeaker the largest difference between the errors of its ways is as small as it can be,
 * (2) then the largest difference between the middles of all loudspeakers over all channels is as small as it can be,
 * (3) then what all have in common is nearest to 0.
 * Each is solved exactly by {@link narrowestWindows}; (2) may use every choice that is equally good for (1). A
 * loudspeaker that several channels feed keeps the choice nearest to 0.
 */
export function solveStages({ speakers, channels }: StageProblem): StageSolution {
  const solved = speakers.map((speaker) => {
    const windows = narrowestWindows(speaker.outputs.map(outputGroup));
    const channelIds = new Set(speaker.outputs.flatMap((output) => output.channels.map((c) => c.channelId)));
    const nearest = windowNearest(windows, 0)!;
    return { speaker, channelIds, windows: channelIds.size === 1 ? windows : [nearest] };
  });
  const inRoom = (channelId: string) =>
    solved.filter(({ speaker, channelIds }) => speaker.inRoom && channelIds.has(channelId));
  const roomChannels = channels.filter(({ id }) => inRoom(id).length > 0);
  const groups = roomChannels.map(
    ({ id, own }): WindowGroup =>
      own.map(({ error }) => ({
        change: Math.abs(error),
        lists: inRoom(id).map(({ windows }) =>
          windows.map((w) => ({ value: middleOf(w) + error, change: Math.abs(middleOf(w)) })),
        ),
      })),
  );
  const balance = windowNearest(narrowestWindows(groups), 0) ?? { low: 0, high: 0, picks: [] };
  const chosen = new Map<string, Window>();
  const channelSettings = new Map<string, number>();
  const channelErrors = new Map<string, number>();
  roomChannels.forEach(({ id, own }, index) => {
    const pick = balance.picks[index]!;
    const setting = own[pick.alternative]!;
    channelSettings.set(id, setting.value);
    const mine = inRoom(id);
    mine.forEach(({ speaker, windows }, list) => {
      chosen.set(speaker.id, windows[pick.candidates[list]!]!);
    });
    const middles = mine.map(({ speaker }) => middleOf(chosen.get(speaker.id)!) + setting.error);
    channelErrors.set(id, (Math.min(...middles) + Math.max(...middles)) / 2);
  });
  for (const { speaker, windows } of solved) {
    if (!chosen.has(speaker.id)) chosen.set(speaker.id, windowNearest(windows, 0)!);
  }
  for (const { id, own } of channels) {
    if (channelSettings.has(id)) continue;
    const feed = solved.find(({ channelIds }) => channelIds.has(id));
    const middle = feed === undefined ? 0 : middleOf(chosen.get(feed.speaker.id)!);
    const setting = nearestTo(own, -middle);
    channelSettings.set(id, setting.value);
    channelErrors.set(id, setting.error + middle);
  }
  return {
    ...settingsOf(speakers, chosen),
    channels: channelSettings,
    channelErrors,
    betweenWays: Math.max(0, ...speakers.map(({ id }) => chosen.get(id)!.high - chosen.get(id)!.low)),
    betweenChannels: balance.high - balance.low,
  };
}

function outputGroup({ own, channels }: OutputStage): WindowGroup {
  const alone = [[{ value: 0, error: 0 }]];
  const mixes = channels.length === 0 ? alone : channels.map(({ mix }) => mix);
  return own.map(({ error }) => ({
    change: Math.abs(error),
    lists: mixes.map((mix) =>
      mix.map((part) => ({ value: part.error + error, change: Math.abs(part.error) })),
    ),
  }));
}

function settingsOf(speakers: readonly SpeakerStage[], chosen: ReadonlyMap<string, Window>) {
  const outputs = new Map<string, number>();
  const mixes = new Map<string, ReadonlyMap<string, number>>();
  for (const speaker of speakers) {
    const { picks } = chosen.get(speaker.id)!;
    speaker.outputs.forEach((output, index) => {
      const { alternative, candidates } = picks[index]!;
      outputs.set(output.id, output.own[alternative]!.value);
      mixes.set(
        output.id,
        new Map(
          output.channels.map(({ channelId, mix }, list) => [channelId, mix[candidates[list]!]!.value]),
        ),
      );
    });
  }
  return { outputs, mixes };
}

/** The candidate whose error is nearest to a value. */
export function nearestTo(candidates: readonly Candidate[], error: number): Candidate {
  return candidates.reduce((best, item) =>
    Math.abs(item.error - error) < Math.abs(best.error - error) - 1e-9 ? item : best,
  );
}
