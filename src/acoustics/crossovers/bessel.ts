import { polynomialRoots } from "../../base/numeric/index.ts";
import type { CrossoverFamily, PrototypeFactor } from "./crossover-family.ts";

/**
 * Maximally flat group delay (of the analogue prototype: the bilinear transform does not keep it). The denominator is
 * the reverse Bessel polynomial θₙ(s) = Σ (2n − k)!/(2^(n−k)·k!·(n − k)!)·s^k.
 * Source: W. E. Thomson, "Delay networks having maximally flat frequency characteristics", 1949.
 */
export const bessel = {
  family: "bessel",
  orders: [2, 3, 4, 5, 6, 7, 8],
  normalizations: ["phase", "magnitude"],
  factors(order, normalization) {
    const unit = unitDelayFactors(order);
    const scale =
      normalization === "magnitude" ? halfPowerFrequency(order) : productOfPoles(order) ** (1 / order);
    return unit.map(({ a1, a2 }) => ({ a1: a1 * scale, a2: a2 * scale * scale }));
  },
} as const satisfies CrossoverFamily;

/** Ascending coefficients of θₙ: (2n − k)!/(2^(n−k)·k!·(n − k)!). All are integers that a double holds exactly. */
function reverseBesselPolynomial(order: number): readonly number[] {
  const coefficients = [1];
  for (let k = order; k > 0; k--) {
    const next = coefficients[0]!;
    coefficients.unshift((next * k * (2 * order - k + 1)) / (2 * (order - k + 1)));
  }
  return coefficients;
}

/** θₙ(0) = (2n)!/(2ⁿ·n!), the product of the poles' magnitudes. */
function productOfPoles(order: number): number {
  return reverseBesselPolynomial(order)[0]!;
}

/** The factors of θₙ(s)/θₙ(0), whose delay at 0 Hz is 1 s. Found once an order. */
const unitDelayFactors = onceAnOrder((order): readonly PrototypeFactor[] => {
  const roots = polynomialRoots(reverseBesselPolynomial(order));
  const pairs = roots.filter(({ re, im }) => im > 1e-6 * Math.abs(re));
  const factors = pairs.map(({ re, im }) => {
    const a2 = 1 / (re * re + im * im);
    return { a1: -2 * re * a2, a2 };
  });
  const real = roots.find(({ re, im }) => Math.abs(im) <= 1e-6 * Math.abs(re));
  return real === undefined ? factors : [...factors, { a1: -1 / real.re, a2: 0 }];
});

/** The angular frequency at which θₙ(0)/|θₙ(jω)| is −3.01 dB: bisection of a falling curve. */
const halfPowerFrequency = onceAnOrder((order): number => {
  const powerAt = (omega: number) =>
    unitDelayFactors(order).reduce(
      (power, { a1, a2 }) => power * ((1 - a2 * omega * omega) ** 2 + (a1 * omega) ** 2),
      1,
    );
  let low = 0;
  let high = 10;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (powerAt(middle) < 2) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
});

function onceAnOrder<Value>(compute: (order: number) => Value): (order: number) => Value {
  const known = new Map<number, Value>();
  return (order) => {
    const value = known.get(order) ?? compute(order);
    known.set(order, value);
    return value;
  };
}
