import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { wayPairs } from "../way-pairs.ts";

export const noLowPass = screenRule({
  code: "crossover/no-low-pass",
  kind: "sound",
  severity: "warning",
  title: "Every way below another one has a low-pass.",
  why: "Without it both ways play the same band: the sum combs, and dialogue sounds coloured.",
  source: COMMON_PRACTICE,
  remedy: "Set a low-pass alike in family, order and corner to the next way's high-pass.",
  example: {
    breaks: [remove("/outputs/center-mf/lowPass")],
    mends: [restore("/outputs/center-mf/lowPass")],
  },
  *check(context) {
    for (const { lower, upper } of wayPairs(context)) {
      if (lower.item.lowPass !== undefined) continue;
      yield {
        path: ["outputs", lower.index],
        words: `The ${lower.way.band} way has no low-pass, although the ${upper.way.band} way follows.`,
        numbers: { band: lower.way.band, nextBand: upper.way.band },
      };
    }
  },
});
