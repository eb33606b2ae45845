import { type LeastSquaresWorkspace, leastSquaresWorkspace, type Random } from "../../base/numeric/index.ts";
import type { BandOffer, OfferedKind } from "./band-offer.ts";
import type { Bank } from "./bank.ts";
import { type ResponseAxis, responseAxis, type Section } from "./section-response.ts";

/** What every stage of a parametric refit works on. */
export interface FitGround {
  readonly axis: ResponseAxis;
  readonly offer: BandOffer;
  /** The residual without any band: minus the curve, scaled. */
  readonly bare: Float64Array;
  /** Responses of sections at hand. */
  readonly levels: WeakMap<Section, Float64Array>;
  /** What banks at hand cost (see `bankCost`). */
  readonly costs: WeakMap<Bank, number>;
  /** The sections that the unit's steps make, each made once: kind by kind, by number. */
  readonly settings: ReadonlyMap<OfferedKind, Map<number, Section>>;
  /** A place to compute a fit of so many parameters in, or more. */
  readonly workspace: (parameters: number) => LeastSquaresWorkspace;
}

/** The same for a stage that searches by chance. Each search has a chance of its own, so that none depends on what ran before. */
export interface FitTask extends FitGround {
  readonly random: Random;
}

export function fitGround(axis: ResponseAxis, levelsDb: ArrayLike<number>, offer: BandOffer): FitGround {
  return {
    axis,
    offer,
    bare: axis.scale.map((scale, i) => -scale * levelsDb[i]!),
    levels: new WeakMap(),
    costs: new WeakMap(),
    settings: new Map(offer.map((offered) => [offered, new Map()])),
    workspace: workspaces(axis.rows),
  };
}

/**
 * The same task on every second frequency, with twice the weight: twelve points an octave tell banks apart nearly as well
 * and cost half.
 */
export function coarseGround(task: FitGround): FitGround {
  const { axis, bare } = task;
  const rows = Array.from({ length: Math.ceil(axis.rows / 2) }, (_, k) => 2 * k);
  const coarse = responseAxis(
    rows.map((row) => Math.exp(axis.lnF[row]!)),
    rows.map((row) => 2 * axis.scale[row]! ** 2),
    axis.sampleRateHz,
  );
  return {
    ...task,
    axis: coarse,
    bare: Float64Array.from(rows, (row) => Math.SQRT2 * bare[row]!),
    levels: new WeakMap(),
    costs: new WeakMap(),
    workspace: workspaces(coarse.rows),
  };
}

/** One place for all fits, as large as the largest so far. */
function workspaces(rows: number): FitGround["workspace"] {
  let largest = 0;
  let workspace = leastSquaresWorkspace(rows, 0);
  return (parameters) => {
    if (parameters > largest) {
      largest = Math.max(parameters, 2 * largest);
      workspace = leastSquaresWorkspace(rows, largest);
    }
    return workspace;
  };
}

/** A normally distributed random number (Box and Muller, Ann. Math. Stat. 29, 1958). */
export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
