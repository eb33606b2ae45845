import type { Crossover, Polarity } from "../../../src/model/index.ts";

/** A filter of 6 dB per octave for each order. */
export function crossover(
  family: "butterworth" | "linkwitz-riley",
  order: number,
  frequencyHz: number,
): Crossover {
  return { family, order, frequencyHz };
}

/**
 * Polarity of the way above a crossover, given that of the way below. Butterworth and Linkwitz-Riley halves of order n
 * stand n · 90° apart at the corner. In opposite phase (2, 6) the upper way is inverted. In quadrature (1, 3) both
 * polarities sum flat by themselves, but the protective high-pass of the lower way lets it lead a little more: order 3
 * is then flatter inverted, order 1 as it is.
 */
export function polarityAbove(below: Polarity, { order }: Crossover): Polarity {
  const inverts = order % 4 === 2 || order % 4 === 3;
  if (!inverts) return below;
  return below === "normal" ? "inverted" : "normal";
}

/** What the splits between the ways, from below, make of each way: its own two filters and its polarity. */
export function waysBetween(splits: readonly Crossover[]): {
  readonly highPass?: Crossover;
  readonly lowPass?: Crossover;
  readonly polarity: Polarity;
}[] {
  let polarity: Polarity = "normal";
  return Array.from({ length: splits.length + 1 }, (_, way) => {
    const highPass = splits[way - 1];
    const lowPass = splits[way];
    if (highPass !== undefined) polarity = polarityAbove(polarity, highPass);
    return {
      ...(highPass === undefined ? {} : { highPass }),
      ...(lowPass === undefined ? {} : { lowPass }),
      polarity,
    };
  });
}
