import { printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const wayPassesNothing = screenRule({
  code: "crossover/way-passes-nothing",
  kind: "sound",
  severity: "error",
  title: "A way's high-pass lies below its low-pass.",
  why: "With the two exchanged the way is as good as silent, and its neighbours get what it should play.",
  source: COMMON_PRACTICE,
  remedy: "Exchange or correct the two corners.",
  example: {
    breaks: [
      set("/outputs/sub-1-all/highPass/frequencyHz", 140),
      set("/outputs/sub-2-all/highPass/frequencyHz", 140),
    ],
    mends: [
      set("/outputs/sub-1-all/highPass/frequencyHz", 24),
      set("/outputs/sub-2-all/highPass/frequencyHz", 24),
    ],
  },
  *check({ configuration }) {
    for (const [index, { highPass, lowPass }] of configuration.outputs.entries()) {
      if (highPass === undefined || lowPass === undefined || highPass.frequencyHz < lowPass.frequencyHz)
        continue;
      yield {
        path: ["outputs", index, "highPass", "frequencyHz"],
        words: `The high-pass at ${printHz(highPass.frequencyHz)} lies above the low-pass at ${printHz(lowPass.frequencyHz)}.`,
        numbers: { highPassHz: highPass.frequencyHz, lowPassHz: lowPass.frequencyHz },
      };
    }
  },
});
