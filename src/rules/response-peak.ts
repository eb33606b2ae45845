/** The largest level of a response and where it lies. */
export function peakOf(
  levelsDb: Float64Array,
  frequenciesHz: Float64Array,
): { readonly levelDb: number; readonly frequencyHz: number } {
  let best = 0;
  for (let k = 1; k < levelsDb.length; k += 1) if (levelsDb[k]! > levelsDb[best]!) best = k;
  return { levelDb: levelsDb[best]!, frequencyHz: frequenciesHz[best]! };
}
