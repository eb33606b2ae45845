/** A figure for people and scripts, with as many decimals as mean something; never −0. */
export function figure(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) + 0;
}
