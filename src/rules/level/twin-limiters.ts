import { printNumber } from "../../words/index.ts";
import { set } from "../edits.ts";
import { isLimited } from "../limiters.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { twinOutputs } from "../twins.ts";

const MAX_DIFFERENCE_DB = 1;

export const twinLimiters = screenRule({
  code: "level/twin-limiters",
  kind: "protection",
  severity: "warning",
  title: "Twins have the same limiter threshold.",
  why: "Equal drivers stand equal power: the higher threshold protects less than was meant.",
  source: COMMON_PRACTICE,
  remedy: "Set both to the lower threshold, unless the amplifiers differ.",
  example: {
    breaks: [set("/outputs/sub-2-all/limiter/thresholdDbfs", 0)],
    mends: [set("/outputs/sub-2-all/limiter/thresholdDbfs", -3)],
  },
  *check(context) {
    for (const { left, right } of twinOutputs(context)) {
      if (!isLimited(left.item) || !isLimited(right.item)) continue;
      const [a, b] = [left.item.limiter!.thresholdDbfs, right.item.limiter!.thresholdDbfs];
      // A threshold above full scale is told by itself.
      if (Math.abs(a - b) <= MAX_DIFFERENCE_DB || a > 0 || b > 0) continue;
      yield {
        path: ["outputs", right.index, "limiter", "thresholdDbfs"],
        words: `The threshold is ${printNumber(b, 1)} dBFS, ${printNumber(a, 1)} dBFS at ${left.loudspeaker.label}.`,
        numbers: { thresholdDbfs: b, twinDbfs: a },
      };
    }
  },
});
