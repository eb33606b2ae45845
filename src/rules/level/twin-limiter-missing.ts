import { remove, restore } from "../edits.ts";
import { isLimited } from "../limiters.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { twinOutputs } from "../twins.ts";

export const twinLimiterMissing = screenRule({
  code: "level/twin-limiter-missing",
  kind: "protection",
  severity: "error",
  title: "Where a loudspeaker has a limiter, its twin has one too.",
  why: "Both were to be protected: a limiter taken out for a test was not put back.",
  source: COMMON_PRACTICE,
  remedy: "Set the limiter like the twin's.",
  example: {
    breaks: [remove("/outputs/right-hf/limiter")],
    mends: [restore("/outputs/right-hf/limiter")],
  },
  *check(context) {
    for (const { left, right } of twinOutputs(context)) {
      if (isLimited(left.item) === isLimited(right.item)) continue;
      const [without, twin] = isLimited(left.item) ? [right, left] : [left, right];
      yield {
        path: ["outputs", without.index],
        words: `There is no limiter ${without.item.limiter === undefined ? "here" : "in use here"}; ${twin.loudspeaker.label} has one.`,
        numbers: { twinOutputId: twin.item.id },
      };
    }
  },
});
