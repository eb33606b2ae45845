import { isForAuditorium } from "../../model/index.ts";
import { remove, set } from "../edits.ts";
import { crossingsOf, isHeadset, isOfFormat, presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const channelOutside = screenRule({
  code: "format/channel-outside",
  kind: "routing",
  severity: "warning",
  title: "Nothing is routed that does not belong to the preset's format.",
  why: "In a program of this format the position is empty today and may carry something else tomorrow.",
  source: "SMPTE ST 428-12:2013 (soundfield groups); ISDCF Document 4, 2017-06-29 (positions)",
  remedy: "Take the crossing out, or set the format that the program has.",
  example: {
    breaks: [
      set("/presets/feature-51/routing/server-11-to-Lrs", {
        id: "server-11-to-Lrs",
        sourceChannelId: "server-11",
        channelId: "Lrs",
        gainDb: 0,
      }),
    ],
    mends: [remove("/presets/feature-51/routing/server-11-to-Lrs")],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      for (const { route, carried, to, index: at, from } of crossingsOf(context, preset)) {
        // Labelled sources say what is outside; Document 4 leaves positions empty.
        const isEmpty =
          carried === undefined && from.source.assignment === "isdcf-doc4-2017" && preset.format !== "6.1";
        const isForeign = carried !== undefined && isForAuditorium(carried) && !isOfFormat(carried, preset);
        if (isHeadset(to) || !(isEmpty || isForeign)) continue;
        yield {
          path: ["presets", index, "routing", at],
          words: `Position ${from.channel.position} ${
            isEmpty ? "is empty" : `carries ${carried}`
          } in ${preset.format}, but is routed to ${to}.`,
          numbers: { position: from.channel.position, channel: to, sourceChannelId: route.sourceChannelId },
        };
      }
    }
  },
});
