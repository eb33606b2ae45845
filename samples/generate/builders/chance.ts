import { type Random, seededRandom } from "../../../src/base/numeric/index.ts";

/** A source of pseudo-random numbers that depends on a text alone: "lantern-mill/screen-1/eq/L". */
export function chanceFor(text: string): Random {
  let hash = 0x811c9dc5;
  for (const char of text) hash = Math.imul(hash ^ char.codePointAt(0)!, 0x01000193);
  return seededRandom(hash);
}

/** Unevenness along a frequency axis: neighbours resemble each other, as rooms do. Standard deviation about `spread`. */
export function unevenness(random: Random, count: number, spread: number): number[] {
  let last = 0;
  return Array.from({ length: count }, () => {
    last = 0.6 * last + 0.8 * spread * roughlyNormal(random);
    return last;
  });
}

/** Sum of four even numbers, scaled: mean 0, standard deviation 1, never beyond 3.5. */
function roughlyNormal(random: Random): number {
  return (random() + random() + random() + random() - 2) * Math.sqrt(3);
}
