import { defaultGraphicQ, graphicCentersHz } from "../acoustics/index.ts";
import type { FilterAbility, GraphicAbility } from "../model/index.ts";
import { bandOffer } from "./band-offer.ts";
import { copyOf } from "./copy.ts";
import type { Refit, RefitFilter, RefitOptions, RefitSource, RefitTarget } from "./equalizer.ts";
import { BELOW_BAND_HZ, equalizerLevelsDb, refitError, refitFrequenciesHz } from "./error.ts";
import { type FitTask, fitTask } from "./fit-task.ts";
import { fitGraphic } from "./graphic-fit.ts";
import { type Effort, ladder } from "./ladder.ts";
import { parameterGrid } from "./parameter-grid.ts";
import { type ResponseAxis, responseAxis, type Section } from "./section-response.ts";
import { sourceSections } from "./source-sections.ts";
import type { SteppedBand, SteppedBank } from "./stepped-bank.ts";

const EFFORTS: Readonly<Record<"quick" | "thorough", Effort>> = {
  thorough: {
    freeRounds: (bands) => Math.ceil(1.5 * bands),
    steppedRounds: (bands) => (bands < 3 ? 4 : 2 * bands),
  },
  quick: {
    freeRounds: (bands) => Math.ceil(bands / 4),
    steppedRounds: (bands) => Math.ceil(bands / 2),
  },
};

const DEFAULT_TOLERANCE = { rmsDb: 0.05, maxDb: 0.2 };
/** Boosts may go this far beyond the curve's own maximum: strong boosts beside strong cuts cost headroom. */
const BOOST_ABOVE_CURVE_DB = 3;
const SEED = 1;

/**
 * Finds settings of another unit's equalizer with nearly the same response. In this order: the same settings where the
 * unit takes them; the same filters on its steps where that is within the tolerance; other filters, as few as reach the
 * tolerance, else the best found with all there are. Deterministic: a fixed seed and iteration budgets, never the clock.
 *
 * The curve is the true response of the source in dB, compared over 40 Hz to 16 kHz with the same weight for every
 * fraction of an octave; no level offset is allowed for. More bands never give a worse result.
 *
 * @throws BoothkeepError `acoustics.invalid-filter`: a setting of the source cannot be computed
 * @example
 * const refit = refitEqualizer(
 *   { sampleRateHz: 48_000, graphic: { layout: "third-octave-27", gainsDb }, filters: [] },
 *   { sampleRateHz: 96_000, filters: profile.equalizations.parametric },
 * );
 * refit.rmsDb; // error in dB
 */
export function refitEqualizer(source: RefitSource, target: RefitTarget, options: RefitOptions = {}): Refit {
  const { effort = "thorough", tolerance = DEFAULT_TOLERANCE, weightBelow40Hz = 0 } = options;
  const frequenciesHz = refitFrequenciesHz([source.sampleRateHz, target.sampleRateHz]);
  const wantedDb = equalizerLevelsDb(source, frequenciesHz);
  const judged = (found: Omit<Refit, "rmsDb" | "maxDb" | "maxAtHz">): Refit => ({
    ...found,
    ...refitError(equalizerLevelsDb(asSource(found, target), frequenciesHz), wantedDb, frequenciesHz),
  });
  const reaches = ({ rmsDb, maxDb }: Refit) => rmsDb <= tolerance.rmsDb && maxDb <= tolerance.maxDb;

  const copy = copyOf(source, target);
  const copied =
    copy === undefined
      ? undefined
      : judged({
          ...(copy.graphic === undefined ? {} : { graphic: copy.graphic }),
          filters: copy.filters,
          method: copy.exact ? "copied" : "rounded",
        });
  if (copied !== undefined && (copied.method === "copied" || reaches(copied))) return copied;

  const below = weightBelow40Hz > 0 ? BELOW_BAND_HZ : [];
  const searchedHz = [...below, ...frequenciesHz];
  const weights = searchedHz.map((_, k) => (k < below.length ? weightBelow40Hz : 1));
  const axis = responseAxis(searchedHz, weights, target.sampleRateHz);
  const search = { source, target, axis, effort: EFFORTS[effort], reaches, judged };
  const curveDb = equalizerLevelsDb(source, searchedHz);
  const candidates = [copied, ...refits(search, curveDb)].filter((refit) => refit !== undefined);
  const good = candidates.find(reaches);
  return good ?? candidates.reduce((best, refit) => (refit.rmsDb < best.rmsDb ? refit : best));
}

interface Search {
  readonly source: RefitSource;
  readonly target: RefitTarget;
  readonly axis: ResponseAxis;
  readonly effort: Effort;
  readonly reaches: (refit: Refit) => boolean;
  readonly judged: (found: Omit<Refit, "rmsDb" | "maxDb" | "maxAtHz">) => Refit;
}

/** By parametric filters alone, by the graphic alone, and by filters on what the graphic leaves. */
function* refits(search: Search, wantedDb: Float64Array): Generator<Refit> {
  const { source, target, axis, judged } = search;
  const method = "refitted";
  if (target.filters !== undefined) {
    yield byFilters(search, target.filters, wantedDb, (filters) => judged({ filters, method }));
  }
  if (target.graphic !== undefined) {
    const bare = wantedDb.map((levelDb, k) => -levelDb * axis.scale[k]!);
    const { graphic, residual } = byGraphic(axis, target.graphic, bare);
    yield judged({ graphic, filters: [], method });
    if (target.filters !== undefined) {
      const left = residual.map((scaledDb, k) => -scaledDb / axis.scale[k]!);
      const rest = { ...search, source: { sampleRateHz: source.sampleRateHz, filters: [] } };
      yield byFilters(rest, target.filters, left, (filters) => judged({ graphic, filters, method }));
    }
  }
  if (target.filters === undefined && target.graphic === undefined) yield judged({ filters: [], method });
}

function byFilters(
  { source, target, axis, effort, reaches }: Search,
  ability: FilterAbility,
  curveDb: Float64Array,
  toRefit: (filters: readonly RefitFilter[]) => Refit,
): Refit {
  const offer = bandOffer(ability, target.sampleRateHz, Math.max(0, ...curveDb) + BOOST_ABOVE_CURVE_DB);
  if (offer.length === 0) return toRefit([]);
  const task = fitTask(axis, curveDb, offer, SEED);
  let best: Refit | undefined;
  for (const rung of rungs(task, sourceSections(source, offer), effort, ability.bands)) {
    const refit = toRefit(rung.bands.map(asFilter));
    if (best === undefined || refit.rmsDb < best.rmsDb) best = refit;
    if (reaches(refit)) return refit;
  }
  return best!;
}

function* rungs(
  task: FitTask,
  start: readonly Section[],
  effort: Effort,
  most: number,
): Generator<SteppedBank> {
  let size = 0;
  for (const rung of ladder(task, start, effort)) {
    yield rung;
    if (size++ === most) return;
  }
}

function byGraphic(axis: ResponseAxis, ability: GraphicAbility, bare: Float64Array) {
  const { layout, gainDb, q = defaultGraphicQ(layout) } = ability;
  const gain = parameterGrid(gainDb, { logarithmic: false });
  const { gains, residual } = fitGraphic(axis, bare, { centersHz: graphicCentersHz(layout), q, gain });
  return { graphic: { layout, gainsDb: gains.map((index) => gain.value(index)) }, residual };
}

function asFilter({ offered, frequency, gain, shape }: SteppedBand): RefitFilter {
  const common = {
    frequencyHz: offered.frequency.value(frequency),
    gainDb: offered.gain.value(gain),
  };
  const value = offered.shape.value(shape);
  if (offered.kind === "peaking") return { kind: offered.kind, ...common, q: value };
  return { kind: offered.kind, ...common, ...(offered.bySlope ? { slope: value } : { q: value }) };
}

function asSource(
  { graphic, filters }: Pick<Refit, "graphic" | "filters">,
  target: RefitTarget,
): RefitSource {
  const q = target.graphic?.q;
  return {
    sampleRateHz: target.sampleRateHz,
    ...(graphic === undefined ? {} : { graphic }),
    ...(q === undefined ? {} : { graphicQ: q }),
    filters,
  };
}
