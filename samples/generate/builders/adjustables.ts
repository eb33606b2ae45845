import type { Random } from "../../../src/base/numeric/index.ts";
import type { Configuration, NumberGrid, UnitProfile } from "../../../src/model/index.ts";
import { gridCount, gridIndex, gridValue, limitedNumbers } from "../../../src/profile/index.ts";

/** A number that an alignment or a visit may move. */
export interface Adjustable {
  readonly path: readonly (string | number)[];
  readonly grid: NumberGrid;
}

/** Lists whose numbers visits leave alone: a screen stays playable however often it is moved. */
const FIXED_MEMBERS: ReadonlySet<string | number> = new Set([
  "sources",
  "routing",
  "highPass",
  "lowPass",
  "limiter",
]);

/** What a meter shows: tenths of a decibel, whatever the unit. */
const METER: NumberGrid = { kind: "step", min: -60, max: 120, step: 0.1 };

/** Every EQ, level, delay and measured value of a configuration. */
export function adjustablesOf(configuration: Configuration, profile: UnitProfile): Adjustable[] {
  const settings = limitedNumbers(configuration, profile)
    .filter(({ path }) => !path.some((part) => FIXED_MEMBERS.has(part)))
    .map(({ path, grid }) => ({ path, grid }));
  const measured = (configuration.calibration?.channels ?? []).flatMap((channel, index) => {
    const at = ["calibration", "channels", index];
    return [
      { path: [...at, "levelDbC"], grid: METER },
      ...(channel.thirdOctavesDb ?? []).map((_, band) => ({
        path: [...at, "thirdOctavesDb", band],
        grid: METER,
      })),
    ];
  });
  return [...settings, ...measured];
}

/** The value of a place moved by one to four steps, never outside the unit's range. */
export function adjusted(configuration: Configuration, { path, grid }: Adjustable, random: Random): number {
  const from = gridIndex(grid, valueAt(configuration, path));
  const move = 1 + Math.floor(random() * 4);
  const up = random() < 0.5;
  const to = up ? from + move : from - move;
  const inside = to >= 0 && to < gridCount(grid);
  return gridValue(grid, inside ? to : 2 * from - to);
}

function valueAt(configuration: Configuration, path: readonly (string | number)[]): number {
  return path.reduce<unknown>(
    (node, key) => (node as Record<string | number, unknown>)[key],
    configuration,
  ) as number;
}
