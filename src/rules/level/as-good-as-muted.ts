import { printDb } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const asGoodAsMuted = screenRule({
  code: "level/as-good-as-muted",
  kind: "sound",
  severity: "warning",
  title: "No loudspeaker is turned down until it cannot be heard.",
  why: "A gain of −40 dB is a mute that no one sees in the list of mutes.",
  source: COMMON_PRACTICE,
  remedy: "Set the level by measurement, or mute the output and say why.",
  limits: {
    minDb: { value: -40, unit: "dB", words: "lowest gain of an output that feeds a loudspeaker" },
  },
  example: {
    breaks: [set("/outputs/left-rear/gainDb", -50), set("/outputs/right-rear/gainDb", -50)],
    mends: [set("/outputs/left-rear/gainDb", -2), set("/outputs/right-rear/gainDb", -2)],
  },
  *check({ fedWays }, { minDb }) {
    for (const { item: output, index } of fedWays) {
      if (output.gainDb > minDb) continue;
      yield {
        path: ["outputs", index, "gainDb"],
        words: `The gain of ${printDb(output.gainDb)} makes the loudspeaker as good as silent.`,
        numbers: { gainDb: output.gainDb },
      };
    }
  },
});
