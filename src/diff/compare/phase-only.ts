import type { FilterResponse } from "../../acoustics/index.ts";
import type { ResponseEffect } from "../../model/index.ts";

/** Levels that differ by less than this are the same: the difference is in the phase, or nowhere. */
const SAME_LEVEL_DB = 0.05;
/** Phases that differ by less are the same. Common practice, no source. */
const SAME_PHASE_DEG = 1;
const FROM_HZ = 20;
const TO_HZ = 20_000;
/** Deeper below the loudest part a phase means nothing. */
const FLOOR_DB = 60;

/** The largest difference of phase between two filters whose levels are the same; nothing where levels differ too. */
export function phaseOnly(
  before: FilterResponse,
  after: FilterResponse,
  { frequenciesHz, maxDb }: { readonly frequenciesHz: Float64Array; readonly maxDb: number },
): Pick<ResponseEffect, "phaseDeg" | "phaseAtHz"> {
  if (Math.abs(maxDb) > SAME_LEVEL_DB) return {};
  const floorDb = before.magnitudeDb.reduce((most, db) => Math.max(most, db)) - FLOOR_DB;
  let phaseDeg = 0;
  let phaseAtHz = 0;
  frequenciesHz.forEach((hz, k) => {
    if (hz < FROM_HZ || hz > TO_HZ || before.magnitudeDb[k]! < floorDb) return;
    const re = after.re[k]! * before.re[k]! + after.im[k]! * before.im[k]!;
    const im = after.im[k]! * before.re[k]! - after.re[k]! * before.im[k]!;
    const deg = Math.abs((180 / Math.PI) * Math.atan2(im, re));
    if (deg > phaseDeg) [phaseDeg, phaseAtHz] = [deg, hz];
  });
  if (phaseDeg <= SAME_PHASE_DEG) return {};
  return { phaseDeg: Math.round(phaseDeg * 10) / 10, phaseAtHz: Math.round(phaseAtHz) };
}
