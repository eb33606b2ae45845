import {
  type Carried,
  CHANNELS,
  type ChannelLabel,
  carriedBy,
  FORMAT_CHANNELS,
  type Placement,
  type Preset,
  type Route,
} from "../model/index.ts";
import type { Indexed, RuleContext, SourcedChannel } from "./context.ts";

/** One crossing of a preset with what it carries. */
export interface Crossing {
  readonly route: Route;
  /** Position in the preset's routing. */
  readonly index: number;
  readonly from: SourcedChannel;
  /** What the source channel carries; undefined where its source does not say. */
  readonly carried: Carried | undefined;
  /** Label of the program channel. */
  readonly to: ChannelLabel;
}

/** The crossings of a preset whose ids all exist, and that come from the preset's own source. */
export function crossingsOf(context: RuleContext, preset: Preset): readonly Crossing[] {
  return preset.routing.flatMap((route, index) => {
    const from = context.sourceChannels.get(route.sourceChannelId);
    const to = context.channels.get(route.channelId)?.item.label;
    if (from === undefined || to === undefined || from.source.id !== preset.sourceId) return [];
    return [{ route, index, from, carried: carriedBy(from.source, from.channel, preset.format), to }];
  });
}

/** Every preset of a configuration with its position. */
export function presetsOf({ configuration }: RuleContext): readonly Indexed<Preset>[] {
  return configuration.presets.map((item, index) => ({ item, index }));
}

/** Labels of the program channels that exist. */
export function labelsPresent({ configuration }: RuleContext): ReadonlySet<ChannelLabel> {
  return new Set(configuration.channels.map((channel) => channel.label));
}

/**
 * Where a channel of a format goes in an auditorium that has no channel of its name: the channels that take it over,
 * each at −3 dB if they are two. Common practice, no source; −3.01 dB is the equal-power split of two incoherent
 * arrays.
 */
export const FOLDS: Readonly<Partial<Record<ChannelLabel, readonly (readonly ChannelLabel[])[]>>> = {
  Ls: [["Lss", "Lrs"], ["Lss"]],
  Rs: [["Rss", "Rrs"], ["Rss"]],
  Lss: [["Ls"]],
  Rss: [["Rs"]],
  Lrs: [["Ls"]],
  Rrs: [["Rs"]],
  Lc: [["L", "C"]],
  Rc: [["R", "C"]],
  Cs: [
    ["Lrs", "Rrs"],
    ["Ls", "Rs"],
    ["Lss", "Rss"],
  ],
  C: [["L", "R"]],
};

/** The program channels that a channel of a format plays through in this auditorium; [] if it has none for it. */
export function targetsOf(label: ChannelLabel, present: ReadonlySet<ChannelLabel>): readonly ChannelLabel[] {
  if (present.has(label)) return [label];
  return FOLDS[label]?.find((fold) => fold.every((target) => present.has(target))) ?? [];
}

/** The channels that a source can carry for a preset: those of its format, and the headset feeds. */
export function isOfFormat(carried: Carried, preset: Preset): boolean {
  return (
    carried === "mono" ||
    carried === "HI" ||
    carried === "VIN" ||
    (FORMAT_CHANNELS[preset.format] as readonly Carried[]).includes(carried)
  );
}

/** Whether a label names a channel for personal headsets. */
export function isHeadset(label: ChannelLabel): boolean {
  return CHANNELS[label].role === "headset";
}

/** Where the loudspeakers of a program channel stand. A surround channel also plays from the arrays beside its own. */
export const PLACEMENTS: Readonly<Record<ChannelLabel, readonly Placement[]>> = {
  L: ["screen-left"],
  R: ["screen-right"],
  C: ["screen-center"],
  Lc: ["screen-left-center"],
  Rc: ["screen-right-center"],
  LFE: ["subwoofer"],
  Ls: ["surround-left", "surround-left-side", "surround-left-rear"],
  Rs: ["surround-right", "surround-right-side", "surround-right-rear"],
  Lss: ["surround-left-side", "surround-left"],
  Rss: ["surround-right-side", "surround-right"],
  Lrs: ["surround-left-rear", "surround-rear"],
  Rrs: ["surround-right-rear", "surround-rear"],
  Cs: ["surround-rear", "surround-left-rear", "surround-right-rear"],
  HI: [],
  VIN: [],
};
