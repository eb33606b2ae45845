/** Rounds to decimals; never gives −0. */
export function round(value: number, decimals: number): number {
  return Math.round(value * 10 ** decimals) / 10 ** decimals + 0;
}
