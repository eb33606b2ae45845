import { BoothkeepError } from "../../base/errors/index.ts";
import { pointer } from "../../base/findings/index.ts";
import { type Configuration, setAtPosition, type UnitProfile } from "../../model/index.ts";
import { gridNearest, gridRange, gridStep, type LimitedNumber, limitedNumbers } from "../../profile/index.ts";
import { placeOf } from "../../words/index.ts";

/**
 * A copy with every number on the unit's nearest step.
 *
 * @throws BoothkeepError commission.does-not-fit for a number outside what the unit can be set to: nothing is squeezed
 */
export function onUnitSteps(wished: Configuration, profile: UnitProfile): Configuration {
  // By way of text, so that parts which the draft shares are not shared in the document.
  const settled = JSON.parse(JSON.stringify(wished)) as Configuration;
  for (const number of limitedNumbers(wished, profile)) {
    const { path, value, grid } = number;
    const { min, max } = gridRange(grid);
    const slack = gridStep(grid, value) / 2;
    if (value < min - slack || value > max + slack) throw outside(number, wished, profile);
    setAtPosition(settled, path, gridNearest(grid, value));
  }
  return settled;
}

function outside({ path, value, unit, grid }: LimitedNumber, wished: Configuration, profile: UnitProfile) {
  const { min, max } = gridRange(grid);
  return new BoothkeepError(
    "commission.does-not-fit",
    `${placeOf(wished, path).words}: ${value.toFixed(2)} ${unit} is needed; ${profile.label} offers ${min} to ${max} ${unit}.`,
    {
      place: { pointer: pointer(...path) },
      next: "Check distances, sensitivities and picture delay in the description, or choose a unit that reaches so far.",
      data: { value, min, max },
    },
  );
}
