import { checkNumber, invalidSetting, type SettingPlace } from "../limits.ts";
import type { FilterSettings } from "./filter-kind.ts";

/** A shelf's settings: its steepness as Q or as slope, exactly one of the two. */
export interface ShelfSettings extends FilterSettings {
  /** Gain far beyond the corner in dB, −60 to 60; half of it (in dB) at the corner itself. */
  readonly gainDb: number;
  /** The Cookbook's Q, above 0, up to 1000. */
  readonly q?: number | undefined;
  /** The Cookbook's S: 1 is the steepest shelf without overshoot. */
  readonly slope?: number | undefined;
}

export function checkShelf(settings: ShelfSettings, place: SettingPlace): void {
  const { gainDb, q, slope } = settings;
  checkNumber("gainDb", gainDb, `${place}/gainDb`);
  if ((q === undefined) === (slope === undefined)) {
    throw invalidSetting("A shelf needs exactly one of q and slope.", place);
  }
  if (q !== undefined) checkNumber("q", q, `${place}/q`);
  if (slope !== undefined) {
    checkNumber("slope", slope, `${place}/slope`);
    if (!(inverseSquaredQ(gainDb, slope) > 0)) {
      throw invalidSetting(`slope ${slope} is too steep for a shelf of ${gainDb} dB.`, `${place}/slope`, {
        value: slope,
        gainDb,
      });
    }
  }
}

/** 1/Q of a shelf. With slope: √((A + 1/A)(1/S − 1) + 2), A = 10^(gain/40). Source: Audio EQ Cookbook. */
export function shelfInverseQ({ gainDb, q, slope }: ShelfSettings): number {
  return q === undefined ? Math.sqrt(inverseSquaredQ(gainDb, slope ?? 1)) : 1 / q;
}

function inverseSquaredQ(gainDb: number, slope: number): number {
  const a = 10 ** (gainDb / 40);
  return (a + 1 / a) * (1 / slope - 1) + 2;
}
