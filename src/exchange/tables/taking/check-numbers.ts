import { fieldAt, fieldOf, keyPath, type UnitProfile, valueAtPosition } from "../../../model/index.ts";
import {
  gridContains,
  gridNearest,
  gridRange,
  type LimitedNumber,
  limitedNumbers,
} from "../../../profile/index.ts";
import { printValue } from "../../../words/index.ts";
import type { Item } from "../rows.ts";
import type { Draft } from "./draft.ts";
import type { Problems, TablePlace } from "./problem.ts";

/** A number that was moved to the unit's nearest step. */
export interface MovedNumber extends TablePlace {
  readonly from: number;
  readonly to: number;
  /** The field: "outputs[].delayMs". */
  readonly field: string;
}

/**
 * Holds the numbers that tables changed against what the unit takes.
 *
 * @param nearest whether numbers between the unit's steps go to the nearest one; those that protect drivers never do
 */
export function checkNumbers(
  draft: Draft,
  profile: UnitProfile,
  nearest: boolean,
  problems: Problems,
): readonly MovedNumber[] {
  const moved: MovedNumber[] = [];
  for (const limited of limitedNumbers(draft.configuration, profile)) {
    const holder = valueAtPosition(draft.root, limited.path.slice(0, -1)) as Item;
    const name = limited.path.at(-1)!;
    const place = draft.placeOf(holder, name);
    if (place === undefined || gridContains(limited.grid, limited.value, limited.tolerance)) continue;
    const field = fieldOf(keyPath(draft.configuration, limited.path));
    if (nearest && isInside(limited) && fieldAt(field)?.kind !== "protection") {
      const to = gridNearest(limited.grid, limited.value);
      holder[name] = to;
      moved.push({ ...place, from: limited.value, to, field });
    } else {
      problems.add(place, ...offGrid(limited, field, nearest));
    }
  }
  return moved;
}

function isInside({ grid, value }: LimitedNumber): boolean {
  const { min, max } = gridRange(grid);
  return value >= min && value <= max;
}

function offGrid(
  { grid, value }: LimitedNumber,
  field: string,
  nearest: boolean,
): [words: string, next: string] {
  const { min, max } = gridRange(grid);
  const [low, high] = [min, max].map((end) => printValue(field, end));
  const said = exactly(value, field);
  if (value < min || value > max) {
    return [`${said} is outside what the unit takes: ${low} to ${high}.`, "Write a value inside."];
  }
  const near = String(Number(gridNearest(grid, value).toFixed(9)));
  return [
    `${said} lies between the unit's steps.`,
    fieldAt(field)?.kind === "protection"
      ? `The nearest is ${near}. What protects drivers is never moved by itself: write it so if it will do.`
      : `The nearest is ${near}. Write it so${nearest ? "" : ", or let '--nearest' move all such numbers"}.`,
  ];
}

/** A number as it was typed, with its unit. */
function exactly(value: number, field: string): string {
  const unit = fieldAt(field)?.unit ?? "";
  return `${value}${unit === "" ? "" : ` ${unit}`}`;
}
