import { printHz, printNumber } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { wayPairs } from "../way-pairs.ts";

export const gapBetweenWays = screenRule({
  code: "crossover/gap-between-ways",
  kind: "sound",
  severity: "error",
  title: "Neighbouring ways leave no part of the spectrum out, and share no more than their slopes.",
  why: "A gap of half an octave is a hole that no EQ fills; a wide overlap combs.",
  source: COMMON_PRACTICE,
  remedy: "Bring the low-pass and the high-pass to one frequency.",
  limits: {
    maxOctaves: { value: 0.5, unit: "octaves", words: "how far the corners may lie apart" },
  },
  example: {
    breaks: [set("/outputs/center-lf/lowPass/frequencyHz", 200)],
    mends: [set("/outputs/center-lf/lowPass/frequencyHz", 400)],
  },
  *check(context, { maxOctaves }) {
    for (const { lower, upper } of wayPairs(context)) {
      const { lowPass } = lower.item;
      const { highPass } = upper.item;
      if (lowPass === undefined || highPass === undefined) continue;
      const octaves = Math.log2(highPass.frequencyHz / lowPass.frequencyHz);
      if (Math.abs(octaves) <= maxOctaves) continue;
      const from = printHz(Math.min(lowPass.frequencyHz, highPass.frequencyHz));
      const to = printHz(Math.max(lowPass.frequencyHz, highPass.frequencyHz));
      yield {
        path: ["outputs", upper.index, "highPass", "frequencyHz"],
        words:
          octaves > 0
            ? `Nothing plays from ${from} to ${to}: a gap of ${printNumber(octaves, 1)} octaves.`
            : `Both ways play from ${from} to ${to}: an overlap of ${printNumber(-octaves, 1)} octaves.`,
        numbers: { octaves, lowPassHz: lowPass.frequencyHz, highPassHz: highPass.frequencyHz },
      };
    }
  },
});
