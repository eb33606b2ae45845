import { CHANNELS, type ChannelLabel, isForAuditorium } from "../../model/index.ts";
import { set } from "../edits.ts";
import {
  type Crossing,
  crossingsOf,
  FOLDS,
  isHeadset,
  isOfFormat,
  labelsPresent,
  presetsOf,
} from "../program.ts";
import { screenRule } from "../rule.ts";

export const wrongChannel = screenRule({
  code: "format/wrong-channel",
  kind: "routing",
  severity: "error",
  title: "A channel of the program plays from its own place in the room.",
  why: "Left and right exchanged, or dialogue from the rear wall, is the fault that everyone in the room notices.",
  source: "SMPTE ST 428-12:2013 (soundfield groups); folding to fewer channels: common practice, no source",
  remedy:
    "Route the source channel to the program channel of the same label, or to those that take its place.",
  example: {
    breaks: [
      set("/presets/feature-51/routing/server-01-to-L/channelId", "R"),
      set("/presets/feature-51/routing/server-02-to-R/channelId", "L"),
    ],
    mends: [
      set("/presets/feature-51/routing/server-01-to-L/channelId", "L"),
      set("/presets/feature-51/routing/server-02-to-R/channelId", "R"),
    ],
  },
  *check(context) {
    const present = labelsPresent(context);
    for (const { item: preset, index } of presetsOf(context)) {
      for (const crossing of crossingsOf(context, preset)) {
        const { carried, to } = crossing;
        if (carried === undefined || !isOfFormat(carried, preset) || !isForAuditorium(carried)) continue;
        if (isHeadset(to) || isRightPlace(crossing, present)) continue;
        yield {
          path: ["presets", index, "routing", crossing.index],
          words: `${carried} of the program plays from ${CHANNELS[to].name}.`,
          numbers: { carried, channel: to },
        };
      }
    }
  },
});

function isRightPlace({ carried, to }: Crossing, present: ReadonlySet<ChannelLabel>): boolean {
  // A mono signal may play from any screen channel.
  if (carried === "mono") return CHANNELS[to].role === "screen";
  if (carried === to) return true;
  const label = carried as ChannelLabel;
  return !present.has(label) && (FOLDS[label] ?? []).some((fold) => fold.includes(to));
}
