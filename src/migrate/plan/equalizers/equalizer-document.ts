import type { EqBand, FilterAbility, GraphicAbility, GraphicEq } from "../../../model/index.ts";
import { filterObstacle, gridNearest } from "../../../profile/index.ts";
import type { EqFit } from "./eq-task.ts";
import { type Equalizer, type EqualizerInput, isActive } from "./equalizer.ts";
import { onSteps } from "./own-kinds.ts";

/** The equalizer as the new document holds it: copied filters keep their keys, others are numbered. */
export function equalizerDocument(
  input: EqualizerInput,
  fit: EqFit,
  kept: readonly EqBand[],
  shaped: readonly EqBand[],
): Equalizer {
  const { equalizer, filterAbility, graphicAbility } = input;
  const sameFilters = fit.method !== "refitted" && fit.filters.length === shaped.length;
  const taken = new Set(kept.map(({ id }) => id));
  let number = 0;
  const fresh = () => {
    do number += 1;
    while (taken.has(`b${number}`));
    return `b${number}`;
  };
  const fitted = fit.filters.map(
    (filter, index) =>
      ({
        id: sameFilters ? shaped[index]!.id : fresh(),
        ...filter,
        ...enabledOf(sameFilters ? shaped[index] : undefined),
      }) as EqBand,
  );
  const all = sameFilters ? inOldOrder(equalizer.parametric, [...fitted, ...kept]) : [...fitted, ...kept];
  const room = (filterAbility?.bands ?? 0) - all.length;
  const idle = equalizer.parametric
    .filter((band) => !isActive(band))
    .filter((band) => filterAbility !== undefined && filterObstacle(filterAbility, band) === undefined)
    .filter((band) => !all.some(({ id }) => id === band.id))
    .slice(0, Math.max(0, room))
    .map((band) => idleOnSteps(band, filterAbility!));
  const parametric = sameFilters ? inOldOrder(equalizer.parametric, [...all, ...idle]) : [...all, ...idle];
  return { parametric, ...graphicOf(equalizer.graphic, fit, graphicAbility) };
}

function enabledOf(band: EqBand | undefined): { readonly enabled?: boolean } {
  return band?.enabled === undefined ? {} : { enabled: band.enabled };
}

function inOldOrder(old: readonly EqBand[], now: readonly EqBand[]): readonly EqBand[] {
  const place = (band: EqBand) => old.findIndex(({ id }) => id === band.id);
  return [...now].sort((a, b) => place(a) - place(b));
}

function idleOnSteps(band: EqBand, ability: FilterAbility): EqBand {
  const now = onSteps(band, ability);
  return {
    ...now,
    ...("gainDb" in now ? { gainDb: gridNearest(ability.gainDb, now.gainDb) } : {}),
    ...("slope" in now && now.slope !== undefined && ability.slope !== undefined
      ? { slope: gridNearest(ability.slope, now.slope) }
      : {}),
  } as EqBand;
}

function graphicOf(
  old: GraphicEq | undefined,
  fit: EqFit,
  ability: GraphicAbility | undefined,
): { readonly graphic?: GraphicEq } {
  if (fit.graphic !== undefined) {
    return { graphic: { ...fit.graphic, ...(old?.enabled === true ? { enabled: true } : {}) } };
  }
  // A bypassed or flat graphic of the same layout goes along as it is.
  if (old === undefined || ability === undefined || old.layout !== ability.layout) return {};
  return {
    graphic: {
      ...old,
      gainsDb: old.gainsDb.map((gain) => gridNearest(ability.gainDb, old.enabled === false ? gain : 0)),
    },
  };
}
