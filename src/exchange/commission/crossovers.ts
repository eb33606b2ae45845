import { BoothkeepError } from "../../base/errors/index.ts";
import type {
  Crossover,
  CrossoverAbility,
  LoudspeakerModel,
  ModelWay,
  RecommendedFilter,
  UnitProfile,
} from "../../model/index.ts";
import { crossoverObstacle, gridContains, gridNeighbours } from "../../profile/index.ts";

/** The two filters of a way. */
export interface WayFilters {
  readonly highPass?: Crossover;
  readonly lowPass?: Crossover;
}

/** How far the unit's own frequency may lie from the recommended one, in octaves. */
const MAX_SHIFT_OCTAVES = 1 / 6;

/**
 * The filters of every way of a model, from the lowest up: of each list of recommendations the first that the unit can
 * run, at the unit's own frequency nearest to it. A high-pass never comes to lie below the way's safe frequency nor
 * under its safe order.
 *
 * @throws BoothkeepError commission.no-crossover when none of the recommendations can be run, or the data has none
 */
export function filtersOf(model: LoudspeakerModel, profile: UnitProfile): readonly WayFilters[] {
  const { highPass, lowPass } = profile.outputs;
  const { ways } = model;
  const at = (way: ModelWay, what: string): Search => ({ model, way, what, unit: profile.label });
  const lowest = ways[0]!;
  const highest = ways.at(-1)!;
  const splits = ways.slice(0, -1).map((way, index) =>
    chosen(way.splitAbove, {
      abilities: [highPass, lowPass],
      guarded: ways[index + 1]!,
      search: at(way, "crossover to the next way"),
    }),
  );
  const below =
    lowest.highPass === undefined
      ? undefined
      : chosen(lowest.highPass, { abilities: [highPass], guarded: lowest, search: at(lowest, "high-pass") });
  const above =
    highest.lowPass === undefined
      ? undefined
      : chosen(highest.lowPass, { abilities: [lowPass], search: at(highest, "low-pass") });
  const edges = [below, ...splits, above];
  return ways.map((_, index) => {
    const [high, low] = [edges[index], edges[index + 1]];
    return {
      ...(high === undefined ? {} : { highPass: high }),
      ...(low === undefined ? {} : { lowPass: low }),
    };
  });
}

interface Search {
  readonly model: LoudspeakerModel;
  readonly way: ModelWay;
  readonly what: string;
  readonly unit: string;
}

interface Wish {
  /** Every one of them must run it: both halves of a split are alike. */
  readonly abilities: readonly CrossoverAbility[];
  /** The way that the high-pass protects. */
  readonly guarded?: ModelWay;
  readonly search: Search;
}

function chosen(recommended: readonly RecommendedFilter[] | undefined, wish: Wish): Crossover {
  for (const option of recommended ?? []) {
    const fitted = fittedTo(option, wish);
    if (fitted !== undefined) return fitted;
  }
  const { model, way, what, unit } = wish.search;
  throw new BoothkeepError(
    "commission.no-crossover",
    recommended === undefined
      ? `The data of '${model.id}' recommends no ${what} for its ${way.id} way.`
      : `${unit} can run none of the ${what}s that the data of '${model.id}' recommends for its ${way.id} way.`,
    {
      place: { id: model.id },
      next: "Ask the maker of the loudspeaker for a crossover that this unit can run, and add it to the data. Never guess one.",
    },
  );
}

function fittedTo(option: RecommendedFilter, { abilities, guarded }: Wish): Crossover | undefined {
  const crossover: Crossover = { ...option };
  if (abilities.some((ability) => crossoverObstacle(ability, crossover) !== undefined)) return undefined;
  if (crossover.order < (guarded?.safeHighPassOrder ?? 0)) return undefined;
  const safeHz = guarded?.safeHighPassHz ?? 0;
  const octavesAway = (frequencyHz: number) => Math.abs(Math.log2(frequencyHz / option.frequencyHz));
  const [frequencyHz] = abilities
    .flatMap(({ frequencyHz: grid }) => Object.values(gridNeighbours(grid, option.frequencyHz)))
    .filter((value): value is number => value !== undefined && value >= safeHz)
    .filter((value) => abilities.every(({ frequencyHz: grid }) => gridContains(grid, value)))
    .filter((value) => octavesAway(value) <= MAX_SHIFT_OCTAVES)
    .sort((a, b) => octavesAway(a) - octavesAway(b));
  return frequencyHz === undefined ? undefined : { ...crossover, frequencyHz };
}
