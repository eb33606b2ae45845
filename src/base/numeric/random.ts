/** A source of pseudo-random numbers in [0, 1). */
export type Random = () => number;

/**
 * A seeded generator (32-bit state stepped by a Weyl sequence, output mixed by multiplication and xor-shift:
 * "splitmix" in the sense of Steele, Lea, Flood: Fast splittable pseudorandom number generators, OOPSLA 2014).
 * The same seed gives the same numbers on every machine. For search heuristics and tests, not for secrets.
 *
 * @param seed any integer; only its low 32 bits count
 */
export function seededRandom(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 4294967296;
  };
}
