import { remove, set } from "../edits.ts";
import { crossingsOf, presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const unusedPosition = screenRule({
  code: "format/unused-position",
  kind: "routing",
  severity: "warning",
  title: "A position that carries nothing is routed nowhere.",
  why: "Nobody promises what an unused position holds: silence, a leftover, or data of tomorrow.",
  source: "ISDCF Document 4, 2017-06-29 (position 16 unused)",
  remedy: "Take the crossing out.",
  example: {
    breaks: [
      set("/presets/feature-51/routing/spare", {
        id: "spare",
        sourceChannelId: "server-16",
        channelId: "HI",
        gainDb: 0,
      }),
    ],
    mends: [remove("/presets/feature-51/routing/spare")],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      for (const { carried, to, index: at, from } of crossingsOf(context, preset)) {
        if (carried !== "unused") continue;
        yield {
          path: ["presets", index, "routing", at],
          words: `Position ${from.channel.position} carries nothing, but is routed to ${to}.`,
          numbers: { position: from.channel.position, channel: to },
        };
      }
    }
  },
});
