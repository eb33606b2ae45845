/** Octaves from one frequency up to another: log₂(to/from); negative downwards. */
export function octavesBetween(fromHz: number, toHz: number): number {
  return Math.log2(toHz / fromHz);
}

/** The frequency that lies a number of octaves above another (below, when negative). */
export function octavesAbove(frequencyHz: number, octaves: number): number {
  return frequencyHz * 2 ** octaves;
}
