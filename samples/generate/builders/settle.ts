import type { Configuration, UnitProfile } from "../../../src/model/index.ts";
import { gridNearest, gridRange, gridStep, limitedNumbers } from "../../../src/profile/index.ts";

/** A copy in which a value at a path may be written. */
type Tree = Record<string | number, unknown>;

/**
 * Brings every number that the unit limits to the unit's nearest step, so that descriptions may say what is wished
 * ("45.317 ms") and the sample holds what can be set.
 *
 * @throws if a wish lies outside the unit's range: a sample must not be squeezed into its unit without being noticed
 */
export function settleOn(profile: UnitProfile, wished: Configuration): Configuration {
  // By way of text: objects that descriptions share must not be shared in a sample.
  const settled = JSON.parse(JSON.stringify(wished)) as Configuration;
  for (const { path, value, grid } of limitedNumbers(wished, profile)) {
    const { min, max } = gridRange(grid);
    const slack = gridStep(grid, value) / 2;
    if (value < min - slack || value > max + slack) {
      throw new RangeError(`${path.join("/")}: ${value} lies outside ${min} to ${max} of ${profile.label}`);
    }
    writeAt(settled, path, gridNearest(grid, value));
  }
  return settled;
}

/** Writes a value at a path of names and indices. */
export function writeAt(document: object, path: readonly (string | number)[], value: unknown): void {
  const parent = path.slice(0, -1).reduce((node, key) => node[key] as Tree, document as Tree);
  parent[path.at(-1)!] = value;
}
