import type { FilterAbility, NumberGrid } from "../../model/index.ts";
import { gridContains, gridNearest, gridRange } from "../../profile/index.ts";
import type { RefitFilter, RefitSource, RefitTarget } from "./equalizer.ts";

/** The settings of a source as the target takes them without another filter. */
export interface Copy {
  readonly graphic?: RefitSource["graphic"];
  readonly filters: readonly RefitFilter[];
  /** Whether every value is exactly what it was. */
  readonly exact: boolean;
}

/** The source's own settings, on the target's steps, where it has a place for each of them; else nothing. */
export function copyOf(source: RefitSource, target: RefitTarget): Copy | undefined {
  const graphic = source.graphic === undefined ? undefined : graphicCopy(source, target);
  if (source.graphic !== undefined && graphic === undefined) return undefined;
  const filters = source.filters.map((filter) => filterCopy(filter, target.filters));
  if (filters.length > (target.filters?.bands ?? 0)) return undefined;
  if (!filters.every((filter) => filter !== undefined)) return undefined;
  const exact =
    (graphic?.gainsDb.every((gainDb, band) => gainDb === source.graphic!.gainsDb[band]) ?? true) &&
    JSON.stringify(filters) === JSON.stringify(source.filters);
  return { ...(graphic === undefined ? {} : { graphic }), filters, exact };
}

function graphicCopy({ graphic, graphicQ }: RefitSource, target: RefitTarget): RefitSource["graphic"] {
  const ability = target.graphic;
  if (graphic === undefined || ability === undefined || ability.layout !== graphic.layout) return undefined;
  if (graphicQ !== undefined && ability.q !== undefined && Math.abs(graphicQ - ability.q) > 1e-6)
    return undefined;
  const gainsDb = graphic.gainsDb.map((gainDb) => onGrid(ability.gainDb, gainDb));
  return gainsDb.every((gainDb) => gainDb !== undefined) ? { layout: graphic.layout, gainsDb } : undefined;
}

function filterCopy(filter: RefitFilter, ability: FilterAbility | undefined): RefitFilter | undefined {
  if (ability === undefined || !ability.kinds.includes(filter.kind)) return undefined;
  if (filter.kind !== "peaking" && filter.kind !== "low-shelf" && filter.kind !== "high-shelf")
    return undefined;
  const frequencyHz = onGrid(ability.frequencyHz, filter.frequencyHz);
  const gainDb = onGrid(ability.gainDb, filter.gainDb);
  if (frequencyHz === undefined || gainDb === undefined) return undefined;
  if (filter.kind !== "peaking" && filter.slope !== undefined) {
    if (ability.shelfBy !== "slope" || ability.slope === undefined) return undefined;
    const slope = onGrid(ability.slope, filter.slope);
    return slope === undefined ? undefined : { ...filter, frequencyHz, gainDb, slope };
  }
  if (filter.kind !== "peaking" && ability.shelfBy === "slope") return undefined;
  const q = onGrid(ability.q, filter.q!);
  return q === undefined ? undefined : { ...filter, frequencyHz, gainDb, q };
}

/** The value itself where the grid has it, else its nearest; nothing outside the grid's range. */
function onGrid(grid: NumberGrid, value: number): number | undefined {
  if (gridContains(grid, value)) return value;
  const { min, max } = gridRange(grid);
  return value < min || value > max ? undefined : gridNearest(grid, value);
}
