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
 * loudspeaker that several channels feed keeps the choice nearest to 0. Feeds that do not sound in the room follow the
 * channels as closely as they can.
 */
export function solveStages({ speakers, channels }: StageProblem): StageSolution {
  const room = solveRoom(
    speakers.filter(({ inRoom }) => inRoom),
    channels,
  );
  const feeds = solveFeeds(
    speakers.filter(({ inRoom }) => !inRoom),
    channels,
    room.settings,
  );
  const chosen = new Map([...room.chosen, ...feeds.chosen]);
  const settings = new Map([...room.settings, ...feeds.settings]);
  return {
    ...settingsOf(speakers, chosen),
    channels: new Map([...settings].map(([id, { value }]) => [id, value])),
    channelErrors: new Map([...feeds.channelErrors, ...room.channelErrors]),
    betweenWays: Math.max(0, ...[...room.chosen.values()].map(({ low, high }) => high - low)),
    betweenChannels: room.betweenChannels,
  };
}

function solveRoom(speakers: readonly SpeakerStage[], channels: readonly ChannelStage[]) {
  const solved = speakers.map((speaker) => {
    const windows = narrowestWindows(speaker.outputs.map((output) => outputGroup(output)));
    const channelIds = channelsOf(speaker);
    return { speaker, channelIds, windows: channelIds.size === 1 ? windows : [windowNearest(windows, 0)!] };
  });
  const fedBy = (channelId: string) => solved.filter(({ channelIds }) => channelIds.has(channelId));
  const heard = channels.filter(({ id }) => fedBy(id).length > 0);
  const groups = heard.map(
    ({ id, own }): WindowGroup =>
      own.map(({ error }) => ({
        change: Math.abs(error),
        lists: fedBy(id).map(({ windows }) =>
          windows.map((w) => ({ value: middleOf(w) + error, change: Math.abs(middleOf(w)) })),
        ),
      })),
  );
  const balance = windowNearest(narrowestWindows(groups), 0)!;
  const chosen = new Map<string, Window>();
  const settings = new Map<string, Candidate>();
  const channelErrors = new Map<string, number>();
  heard.forEach(({ id, own }, index) => {
    const pick = balance.picks[index]!;
    const setting = own[pick.alternative]!;
    settings.set(id, setting);
    const middles = fedBy(id).map(({ speaker, windows }, list) => {
      const window = windows[pick.candidates[list]!]!;
      chosen.set(speaker.id, window);
      return middleOf(window) + setting.error;
    });
    channelErrors.set(id, (Math.min(...middles) + Math.max(...middles)) / 2);
  });
  for (const { speaker, windows } of solved) {
    if (!chosen.has(speaker.id)) chosen.set(speaker.id, windowNearest(windows, 0)!);
  }
  return { chosen, settings, channelErrors, betweenChannels: balance.high - balance.low };
}

/** Headset and monitor feeds, and the channels that only they play. */
function solveFeeds(
  speakers: readonly SpeakerStage[],
  channels: readonly ChannelStage[],
  room: ReadonlyMap<string, Candidate>,
) {
  const settings = new Map(
    channels.filter(({ id }) => !room.has(id)).map(({ id, own }) => [id, nearestTo(own, 0)] as const),
  );
  const before = (channelId: string) => (room.get(channelId) ?? settings.get(channelId))?.error ?? 0;
  const chosen = feedWindows(speakers, before);
  const channelErrors = new Map(
    [...settings].map(([id, { error }]) => {
      const feed = speakers.find((speaker) => channelsOf(speaker).has(id));
      return [id, feed === undefined ? error : middleOf(chosen.get(feed.id)!)] as const;
    }),
  );
  return { chosen, settings, channelErrors };
}

/**
 * Feeds that make up for what comes before them, as far as their own settings can: for each channel an error in front of
 * the mix.
 */
export function followFeeds(
  speakers: readonly SpeakerStage[],
  before: (channelId: string) => number,
): Pick<StageSolution, "outputs" | "mixes"> {
  return settingsOf(speakers, feedWindows(speakers, before));
}

function feedWindows(
  speakers: readonly SpeakerStage[],
  before: (channelId: string) => number,
): ReadonlyMap<string, Window> {
  return new Map(
    speakers.map((speaker) => {
      const groups = speaker.outputs.map((output) => outputGroup(output, before));
      return [speaker.id, windowNearest(narrowestWindows(groups), 0)!];
    }),
  );
}

function channelsOf({ outputs }: SpeakerStage): ReadonlySet<string> {
  return new Set(outputs.flatMap(({ channels }) => channels.map(({ channelId }) => channelId)));
}

/** What an output can do: its own settings, and with each of them those of its mix. `before`: errors ahead of it. */
function outputGroup(
  { own, channels }: OutputStage,
  before: (channelId: string) => number = () => 0,
): WindowGroup {
  return own.map(({ error }) => ({
    change: Math.abs(error),
    lists:
      channels.length === 0
        ? [[{ value: error, change: 0 }]]
        : channels.map(({ channelId, mix }) =>
            mix.map((part) => ({
              value: part.error + error + before(channelId),
              change: Math.abs(part.error),
            })),
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
function nearestTo(candidates: readonly Candidate[], error: number): Candidate {
  return candidates.reduce((best, item) =>
    Math.abs(item.error - error) < Math.abs(best.error - error) - 1e-9 ? item : best,
  );
}
