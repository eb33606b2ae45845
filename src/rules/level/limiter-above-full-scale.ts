import { printNumber } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const limiterAboveFullScale = screenRule({
  code: "level/limiter-above-full-scale",
  kind: "protection",
  severity: "error",
  title: "A limiter acts below full scale.",
  why: "Above full scale there is nothing to limit: the output clips first, and the driver has no protection.",
  source: COMMON_PRACTICE,
  remedy: "Set the threshold from the driver's rated power and the amplifier's gain.",
  example: {
    breaks: [set("/outputs/center-hf/limiter/thresholdDbfs", 3)],
    mends: [set("/outputs/center-hf/limiter/thresholdDbfs", -9)],
  },
  *check({ configuration }) {
    for (const [index, { limiter }] of configuration.outputs.entries()) {
      if (limiter === undefined || !limiter.enabled || limiter.thresholdDbfs <= 0) continue;
      yield {
        path: ["outputs", index, "limiter", "thresholdDbfs"],
        words: `The limiter's threshold is ${printNumber(limiter.thresholdDbfs, 1)} dB above full scale: it never acts.`,
        numbers: { thresholdDbfs: limiter.thresholdDbfs },
      };
    }
  },
});
