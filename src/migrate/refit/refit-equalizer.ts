import { defaultGraphicQ, graphicCentersHz } from "../../acoustics/index.ts";
import type { FilterAbility, GraphicAbility } from "../../model/index.ts";
import { bandOffer } from "./band-offer.ts";
import { copyOf } from "./copy.ts";
import { EFFORTS, type Effort } from "./effort.ts";
import type { Refit, RefitFilter, RefitOptions, RefitSource, RefitTarget } from "./equalizer.ts";
import {
  equalizerLevelsDb,
  midpointsHz,
  NARROW_Q,
  outsideFrequenciesHz,
  refitError,
  refitFrequenciesHz,
  withLargest,
} from "./error.ts";
import { fitGround } from "./fit-task.ts";
import { fits } from "./fits.ts";
import { fitGraphic } from "./graphic-fit.ts";
import { parameterGrid } from "./parameter-grid.ts";
import { type ResponseAxis, responseAxis } from "./section-response.ts";
import { sourceSections } from "./source-sections.ts";
import type { SteppedBand, SteppedBank } from "./stepped-bank.ts";

const DEFAULT_TOLERANCE = { rmsDb: 0.05, maxDb: 0.2 };
/**
 * A band may boost this far beyond the curve's own maximum. The order of the filters keeps the headroom (see `inOrder`); the
 * cap keeps boosts and cuts from working against each other by more than a factor of two in amplitude.
 */
const BOOST_ABOVE_CURVE_DB = 6;
/** A fit without steps may leave so many times the tolerated sum of squares and still be worth a closer look. */
const WORTH_TRYING = 1.5;

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
  const { effort = "thorough", tolerance = DEFAULT_TOLERANCE, weightOutside = 0 } = options;
  const sampleRatesHz = [source.sampleRateHz, target.sampleRateHz];
  const frequenciesHz = refitFrequenciesHz(sampleRatesHz);
  const wantedDb = equalizerLevelsDb(source, frequenciesHz);
  const betweenHz = midpointsHz(frequenciesHz);
  const wantedBetweenDb = equalizerLevelsDb(source, betweenHz);
  const judged = (found: Omit<Refit, "rmsDb" | "maxDb" | "maxAtHz">): Refit => {
    const now = asSource(found, target);
    const error = refitError(equalizerLevelsDb(now, frequenciesHz), wantedDb, frequenciesHz);
    const between = refitError(equalizerLevelsDb(now, betweenHz), wantedBetweenDb, betweenHz);
    return { ...found, ...withLargest(error, between) };
  };
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
  // At another sample rate the same settings are another curve near the upper end.
  const sameCurve = copied?.method === "copied" && source.sampleRateHz === target.sampleRateHz;
  if (copied !== undefined && (sameCurve || reaches(copied))) return copied;

  const { below, above } = weightOutside > 0 ? outsideFrequenciesHz(sampleRatesHz) : { below: [], above: [] };
  const searchedHz = [...below, ...frequenciesHz, ...above];
  const weights = [
    ...below.map(() => weightOutside),
    ...frequenciesHz.map(() => 1),
    ...above.map(() => weightOutside),
  ];
  const axis = responseAxis(searchedHz, weights, target.sampleRateHz);
  const search = { source, target, axis, effort: EFFORTS[effort], tolerance, reaches, judged };
  const curveDb = equalizerLevelsDb(source, searchedHz);
  const candidates = [copied, ...refits(search, curveDb)].filter((refit) => refit !== undefined);
  return candidates.find(reaches) ?? leastError(candidates);
}

function leastError(refits: readonly Refit[]): Refit {
  return refits.reduce((best, refit) => (refit.rmsDb < best.rmsDb ? refit : best));
}

interface Search {
  readonly source: RefitSource;
  readonly target: RefitTarget;
  readonly axis: ResponseAxis;
  readonly effort: Effort;
  readonly tolerance: { readonly rmsDb: number; readonly maxDb: number };
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
  { source, target, axis, effort, reaches, tolerance }: Search,
  ability: FilterAbility,
  curveDb: Float64Array,
  toRefit: (filters: readonly RefitFilter[]) => Refit,
): Refit {
  const offer = bandOffer(ability, target.sampleRateHz, {
    highestGainDb: Math.max(0, ...curveDb) + BOOST_ABOVE_CURVE_DB,
    highestQ: Math.max(NARROW_Q, ...source.filters.map((filter) => ("q" in filter ? (filter.q ?? 0) : 0))),
  });
  if (offer.length === 0) return toRefit([]);
  const found = fits(fitGround(axis, curveDb, offer), sourceSections(source, offer));
  const refit = (bands: number, how: Effort) => toRefit(inOrder(found.stepped(bands, how)).map(asFilter));
  const worthTrying = (bands: number) =>
    found.estimate(bands) <= WORTH_TRYING * tolerance.rmsDb ** 2 * axis.rows;

  // Quick fits find how many bands it takes; the long search is for that number, or one fewer where that may do.
  let bands = 0;
  const tried: Refit[] = [];
  for (; bands < ability.bands; bands++) {
    if (!worthTrying(bands)) continue;
    const quick = refit(bands, EFFORTS.quick);
    tried.push(quick);
    if (reaches(quick)) break;
  }
  if (bands > 0 && worthTrying(bands - 1)) {
    const fewer = refit(bands - 1, effort);
    if (reaches(fewer)) return fewer;
    tried.push(fewer);
  }
  tried.push(refit(bands, effort));
  const good = tried.filter(reaches);
  return leastError(good.length > 0 ? good : tried);
}

function byGraphic(axis: ResponseAxis, ability: GraphicAbility, bare: Float64Array) {
  const { layout, gainDb, q = defaultGraphicQ(layout) } = ability;
  const gain = parameterGrid(gainDb, { logarithmic: false });
  const { gains, residual } = fitGraphic(axis, bare, { centersHz: graphicCentersHz(layout), q, gain });
  return { graphic: { layout, gainsDb: gains.map((index) => gain.value(index)) }, residual };
}

/**
 * Cuts before boosts, each by frequency, without what does nothing: whatever the boosts, the level after any filter then
 * stays below what it is after the last (or below what came in), so that the chain needs no more headroom than the curve.
 */
function inOrder({ bands }: SteppedBank): readonly SteppedBand[] {
  const boosts = ({ section }: SteppedBand) => Number(section.gainDb > 0);
  return bands
    .filter(({ section }) => section.gainDb !== 0)
    .sort((a, b) => boosts(a) - boosts(b) || a.section.lnF - b.section.lnF);
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
