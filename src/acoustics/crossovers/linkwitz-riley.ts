import { butterworthFactors } from "./butterworth.ts";
import type { CrossoverFamily } from "./crossover-family.ts";

/**
 * Order 2n: two Butterworth filters of order n in cascade, −6.02 dB at the corner. Low-pass and high-pass of one corner
 * sum to an all-pass (orders 2 and 6 with one of them inverted).
 * Source: S. Linkwitz, "Active crossover networks for noncoincident drivers", J. Audio Eng. Soc. 24(1), 1976.
 */
export const linkwitzRiley = {
  family: "linkwitz-riley",
  orders: [2, 4, 6, 8],
  normalizations: [],
  factors(order) {
    const half = butterworthFactors(order / 2);
    return [...half, ...half];
  },
} as const satisfies CrossoverFamily;
