import type { CrossoverFamily, PrototypeFactor } from "./crossover-family.ts";

/**
 * Maximally flat magnitude, −3.01 dB at the corner: 1/|H|² = 1 + Ω^(2n).
 * Poles at the angles (2k + n − 1)·π/(2n). Source: S. Butterworth, "On the theory of filter amplifiers", 1930.
 */
export const butterworth = {
  family: "butterworth",
  orders: [1, 2, 3, 4, 5, 6, 7, 8],
  normalizations: [],
  factors: butterworthFactors,
} as const satisfies CrossoverFamily;

export function butterworthFactors(order: number): readonly PrototypeFactor[] {
  const pairs = Array.from({ length: Math.floor(order / 2) }, (_, k) => ({
    a1: 2 * Math.sin(((2 * k + 1) * Math.PI) / (2 * order)),
    a2: 1,
  }));
  return order % 2 === 1 ? [...pairs, { a1: 1, a2: 0 }] : pairs;
}
