import type { Crossover } from "../../model/index.ts";
import { crossoverInRule } from "../../words/index.ts";
import type { FedWay, RuleContext } from "../context.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { twinOutputs } from "../twins.ts";
import { isMatched, wayPairs } from "../way-pairs.ts";

export const twinsDiffer = screenRule({
  code: "crossover/twins-differ",
  kind: "protection",
  severity: "warning",
  title: "Left and right loudspeakers of one kind have the same crossover.",
  why: "One of the two was changed and the other forgotten: the image pulls to one side, and one driver works harder.",
  source: COMMON_PRACTICE,
  remedy: "Find out which of the two is right, and set the other like it.",
  example: {
    breaks: [
      set("/outputs/right-lf/lowPass/frequencyHz", 900),
      set("/outputs/right-hf/highPass/frequencyHz", 900),
    ],
    mends: [
      set("/outputs/right-lf/lowPass/frequencyHz", 800),
      set("/outputs/right-hf/highPass/frequencyHz", 800),
    ],
  },
  *check(context) {
    const uneven = unmatchedOutputs(context);
    for (const { left, right } of twinOutputs(context)) {
      for (const side of ["highPass", "lowPass"] as const) {
        const [a, b] = [left.item[side], right.item[side]];
        // A half that is missing, or that does not match its other half, is told by itself.
        if (a === undefined || b === undefined || isEqual(a, b)) continue;
        if (uneven.has(left.item.id) || uneven.has(right.item.id)) continue;
        yield {
          path: ["outputs", right.index, side],
          words: `${crossoverInRule(b)} here, ${crossoverInRule(a)} at ${left.loudspeaker.label}.`,
          numbers: { frequencyHz: b.frequencyHz, twinHz: a.frequencyHz, order: b.order, twinOrder: a.order },
        };
      }
    }
  },
});

function unmatchedOutputs(context: RuleContext): ReadonlySet<string> {
  const ids = ({ lower, upper }: { readonly lower: FedWay; readonly upper: FedWay }) => [
    lower.item.id,
    upper.item.id,
  ];
  return new Set(
    wayPairs(context)
      .filter((pair) => !isMatched(pair))
      .flatMap(ids),
  );
}

function isEqual(a: Crossover, b: Crossover): boolean {
  return (
    a.family === b.family &&
    a.order === b.order &&
    a.frequencyHz === b.frequencyHz &&
    a.normalization === b.normalization
  );
}
