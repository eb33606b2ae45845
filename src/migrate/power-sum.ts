/** Level of several signals whose powers add: the same program from different places. */
export function powerSumDb(levelsDb: readonly number[]): number {
  return 10 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** (level / 10), 0));
}

/** Level of equal signals that add in phase: the same program twice in one output. */
export function phaseSumDb(levelsDb: readonly number[]): number {
  return 20 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** (level / 20), 0));
}
