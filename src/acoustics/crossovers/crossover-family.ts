/**
 * A factor of a low-pass prototype's denominator, 1 + a1·s + a2·s², with the corner at 1 rad/s. First order has a2 = 0.
 */
export interface PrototypeFactor {
  readonly a1: number;
  readonly a2: number;
}

/**
 * What the corner of a Bessel filter means. `phase`: the asymptotes are those of a Butterworth filter of the same order
 * and corner (the level at the corner is below −3 dB). `magnitude`: −3.01 dB at the corner.
 */
export type BesselNormalization = "phase" | "magnitude";

/** One family of crossover filters. One file a family, one line in crossover-families.ts. */
export interface CrossoverFamily<Name extends string = string> {
  readonly family: Name;
  /** The orders offered; each order is 6 dB an octave. */
  readonly orders: readonly number[];
  /** The meanings of the corner that have to be told apart; empty where there is only one. */
  readonly normalizations: readonly BesselNormalization[];
  /** The factors of the low-pass prototype. The high-pass is the same with s replaced by 1/s. */
  factors(order: number, normalization: BesselNormalization | undefined): readonly PrototypeFactor[];
}
