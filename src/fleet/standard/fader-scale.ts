import type { FaderAbility, HouseFaderMark, Standard } from "../../model/index.ts";
import { faderLevelDb, faderMarkAt } from "../../profile/index.ts";
import type { LeafHold } from "./compile.ts";

/** Whether a place holds a mark of the fader scale: the one sort of number whose meaning differs from unit to unit. */
export function isFaderMark(path: readonly string[]): boolean {
  return path.at(-1) === "faderMark";
}

/**
 * A hold with its fader marks on the unit's own scale: the same level in dB, not rounded to the unit's step. Marks whose
 * level the unit does not reach lie beyond the ends of its scale.
 *
 * @param fader the unit's scale; absent: nobody knows it, and marks stay as they are
 */
export function onUnitScale(
  hold: LeafHold,
  path: readonly string[],
  { faderScale }: Pick<Standard, "faderScale">,
  fader: FaderAbility | undefined,
): LeafHold {
  if (faderScale === undefined || fader === undefined || !isFaderMark(path)) return hold;
  const own = (mark: number) => markOfLevel(fader, houseLevelDb(faderScale, mark));
  if (hold.kind === "exactly")
    return typeof hold.value === "number" ? { ...hold, value: own(hold.value) } : hold;
  return hold.kind === "within" ? { ...hold, min: own(hold.min), max: own(hold.max) } : hold;
}

/** Level in dB of a mark on a standard's scale. */
export function houseLevelDb(marks: readonly HouseFaderMark[], mark: number): number {
  return faderLevelDb({ marks, step: 1 }, mark);
}

/** Decimals of a mark that is not on a step yet: far below any scale's step. */
const DECIMALS = 1e6;

/** As `faderMarkAt`, but going on beyond the ends of the scale as steeply as it ends. */
function markOfLevel(fader: FaderAbility, levelDb: number): number {
  const end = faderMarkAt(fader, levelDb);
  const missingDb = levelDb - faderLevelDb(fader, end);
  const inside = faderMarkAt(fader, levelDb - missingDb - Math.sign(missingDb));
  const mark = end + Math.abs(missingDb) * (end - inside);
  return Math.round(mark * DECIMALS) / DECIMALS + 0;
}
