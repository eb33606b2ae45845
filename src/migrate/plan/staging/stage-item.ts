import type { NumberGrid, PlanPlace } from "../../../model/index.ts";
import { gridNearest } from "../../../profile/index.ts";
import type { StepItem } from "../step.ts";

/** What became of one number of a level or delay stage. */
export function stageItem({
  place,
  before,
  after,
  grid,
  print,
}: {
  readonly place: PlanPlace;
  readonly before: number;
  readonly after: number;
  readonly grid: NumberGrid;
  readonly print: (value: number) => string;
}): StepItem {
  const claims = [place.address];
  if (after === before) return { outcome: "kept", place, words: `${print(before)} as before.`, claims };
  const numbers = { from: before, to: after };
  if (Math.abs(gridNearest(grid, before) - after) < 1e-6) {
    return {
      outcome: "rounded",
      place,
      words: `From ${print(before)} to ${print(after)}, the unit's nearest step.`,
      numbers,
      claims,
    };
  }
  return {
    outcome: "restaged",
    place,
    words: `From ${print(before)} to ${print(after)}; other stages of the path make up for it.`,
    numbers,
    claims,
  };
}
