import { CHANNELS } from "../../model/index.ts";
import { remove, set } from "../edits.ts";
import { crossingsOf, isHeadset, presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const headsetInAuditorium = screenRule({
  code: "format/headset-in-auditorium",
  kind: "routing",
  severity: "error",
  title: "The hearing-impaired and narration channels reach personal headsets only.",
  why: "Narration from the auditorium's loudspeakers spoils the show for everyone else in the room.",
  source:
    "ISDCF Document 4, 2017-06-29 (positions 7 and 8); that it must not reach a loudspeaker: common practice, no source",
  remedy: "Route the channel to its own feed.",
  example: {
    breaks: [set("/outputs/left-rear/mix/VIN", { channelId: "VIN", gainDb: 0 })],
    mends: [remove("/outputs/left-rear/mix/VIN")],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      for (const { carried, to, index: at } of crossingsOf(context, preset)) {
        if ((carried !== "HI" && carried !== "VIN") || isHeadset(to)) continue;
        yield {
          path: ["presets", index, "routing", at],
          words: `${CHANNELS[carried].name} (${carried}) of the program plays from ${CHANNELS[to].name}.`,
          numbers: { carried, channel: to },
        };
      }
    }
    for (const { item: output, index } of context.fedWays) {
      for (const [at, { channelId }] of output.mix.entries()) {
        const label = context.channels.get(channelId)?.item.label;
        if (label === undefined || !isHeadset(label)) continue;
        yield {
          path: ["outputs", index, "mix", at],
          words: `${CHANNELS[label].name} (${label}) is mixed into a loudspeaker of the auditorium.`,
          numbers: { channel: label },
        };
      }
    }
  },
});
