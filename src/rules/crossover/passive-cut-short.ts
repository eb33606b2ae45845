import { printHz } from "../../words/index.ts";
import { remove, set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const passiveCutShort = screenRule({
  code: "crossover/passive-cut-short",
  kind: "sound",
  severity: "warning",
  title: "A passive full-range loudspeaker keeps its treble.",
  why: "A low-pass left over from another loudspeaker makes a surround array dull.",
  source: COMMON_PRACTICE,
  remedy: "Take the low-pass out.",
  example: {
    breaks: ["left-rear", "right-rear"].map((id) =>
      set(`/outputs/${id}/lowPass`, { family: "butterworth", order: 2, frequencyHz: 2000 }),
    ),
    mends: ["left-rear", "right-rear"].map((id) => remove(`/outputs/${id}/lowPass`)),
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      const { lowPass } = output;
      if (way.band !== "full" || lowPass === undefined || lowPass.frequencyHz >= 10_000) continue;
      yield {
        path: ["outputs", index, "lowPass"],
        words: `A low-pass at ${printHz(lowPass.frequencyHz)} cuts a full-range loudspeaker.`,
        numbers: { frequencyHz: lowPass.frequencyHz },
      };
    }
  },
});
