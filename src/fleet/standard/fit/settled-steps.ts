import { isDeepStrictEqual } from "node:util";
import { type Configuration, type Json, type ProposedStep, valueAt } from "../../../model/index.ts";

const CHANGES: ReadonlySet<ProposedStep["outcome"]> = new Set(["taken", "rounded", "nearest"]);

/** Steps as they came out on the unit: what fitting put elsewhere or left out is no longer told as taken. */
export function settledSteps(
  steps: readonly ProposedStep[],
  configuration: Configuration,
): readonly ProposedStep[] {
  return steps.map((step) => {
    if (!CHANGES.has(step.outcome)) return step;
    const now = (valueAt(configuration, step.place.split("/")) ?? null) as Json;
    if (isDeepStrictEqual(now, step.result ?? null)) return step;
    const result = now as ProposedStep["result"];
    if (isDeepStrictEqual(now, step.screen ?? null)) {
      return {
        ...step,
        outcome: "kept-by-decision",
        why: "By decision: see what the unit made of it.",
        result,
      };
    }
    // A new item is taken, whatever the unit made of places inside it.
    if (typeof now === "object") return { ...step, result };
    return { ...step, outcome: "nearest", why: "By decision: see what the unit made of it.", result };
  });
}
