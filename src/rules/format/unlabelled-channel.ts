import { remove, set } from "../edits.ts";
import { crossingsOf, presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const unlabelledChannel = screenRule({
  code: "format/unlabelled-channel",
  kind: "routing",
  severity: "warning",
  title: "Every source channel that is routed says what it carries.",
  why: "The order of positions is never guessed: HI and VIN stand at 7 and 8 in one recommendation, at 9 and 10 in another.",
  source: "ISDCF Document 4, 2017-06-29; SMPTE ST 429-2 (configurations 2, 3 and 5; positions from memory)",
  remedy: "Ask the playback server's documentation, and label the channel.",
  example: {
    breaks: [remove("/sources/non-sync/channels/music-l/carries")],
    mends: [set("/sources/non-sync/channels/music-l/carries", "L")],
  },
  *check(context) {
    const told = new Set<string>();
    for (const { item: preset } of presetsOf(context)) {
      for (const { carried, from } of crossingsOf(context, preset)) {
        if (carried !== undefined || from.source.assignment !== "as-labelled" || told.has(from.channel.id))
          continue;
        told.add(from.channel.id);
        const source = context.sources.get(from.source.id)!;
        yield {
          path: ["sources", source.index, "channels", source.item.channels.indexOf(from.channel)],
          words: `Position ${from.channel.position} is routed, but nothing says what it carries.`,
          numbers: { position: from.channel.position },
        };
      }
    }
  },
});
