/**
 * Amplitude ratio of a level difference: 10^(dB/20). Source: ISO 80000-3 (decibel of a root-power quantity).
 *
 * @param db level difference in dB; −Infinity gives 0.
 */
export function amplitudeFromDb(db: number): number {
  return 10 ** (db / 20);
}

/** Level difference in dB of an amplitude ratio: 20 lg|ratio|. 0 gives −Infinity. Inverse of {@link amplitudeFromDb}. */
export function dbFromAmplitude(ratio: number): number {
  return 20 * Math.log10(Math.abs(ratio));
}

/** Power ratio of a level difference: 10^(dB/10). −Infinity gives 0. Source: ISO 80000-3 (decibel). */
export function powerFromDb(db: number): number {
  return 10 ** (db / 10);
}

/** Level difference in dB of a power ratio of 0 or more: 10 lg ratio. 0 gives −Infinity. Inverse of {@link powerFromDb}. */
export function dbFromPower(ratio: number): number {
  return 10 * Math.log10(ratio);
}

/**
 * Level in dB of independent (incoherent) signals together: 10 lg Σ 10^(Lᵢ/10). An empty list gives −Infinity.
 *
 * @example
 * incoherentSumDb([82, 82]); // 85.01
 */
export function incoherentSumDb(levelsDb: readonly number[]): number {
  return dbFromPower(levelsDb.reduce((sum, levelDb) => sum + powerFromDb(levelDb), 0));
}

/**
 * Level in dB of equal signals together, all in phase: 20 lg Σ 10^(Lᵢ/20). An empty list gives −Infinity.
 *
 * @example
 * coherentSumDb([0, 0]); // 6.02
 */
export function coherentSumDb(levelsDb: readonly number[]): number {
  return dbFromAmplitude(levelsDb.reduce((sum, levelDb) => sum + amplitudeFromDb(levelDb), 0));
}
