import { type Random, seededRandom } from "../numeric/index.ts";
import type { BandOffer } from "./band-offer.ts";
import type { ResponseAxis, Section } from "./section-response.ts";

/** What every stage of a parametric refit works on. */
export interface FitTask {
  readonly axis: ResponseAxis;
  readonly offer: BandOffer;
  /** The residual without any band: minus the curve, scaled. */
  readonly bare: Float64Array;
  readonly random: Random;
  /** Responses of sections at hand. */
  readonly levels: WeakMap<Section, Float64Array>;
  /** Counts least-squares iterations. */
  readonly count: { iterations: number };
}

export function fitTask(
  axis: ResponseAxis,
  levelsDb: ArrayLike<number>,
  offer: BandOffer,
  seed: number,
): FitTask {
  const bare = axis.scale.map((scale, i) => -scale * levelsDb[i]!);
  return { axis, offer, bare, random: seededRandom(seed), levels: new WeakMap(), count: { iterations: 0 } };
}

/** A normally distributed random number (Box and Muller, Ann. Math. Stat. 29, 1958). */
export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
