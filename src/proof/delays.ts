import { isWhole, type PathPair, type WholePair } from "./path-pairs.ts";

/** How delays changed, after minus before in milliseconds: what all paths share, then what each preset shares. */
export interface DelayChanges {
  readonly commonMs: number;
  /** Beyond the common delay, by preset. */
  readonly presetsMs: ReadonlyMap<string, number>;
  /** What is left for one path. */
  readonly ofPathMs: (pair: WholePair) => number;
}

/** Takes the common delay, then that of each preset, out of the delay changes of all paths. Unit latency is included. */
export function delayChanges(pairs: readonly PathPair[]): DelayChanges {
  const whole = pairs.filter(isWhole);
  const commonMs = centralValue(whole.map(changeMs));
  const byPreset = new Map<string, number[]>();
  for (const pair of whole) {
    const values = byPreset.get(pair.place.presetId) ?? [];
    values.push(changeMs(pair) - commonMs);
    byPreset.set(pair.place.presetId, values);
  }
  const presetsMs = new Map([...byPreset].map(([id, values]) => [id, centralValue(values)]));
  return {
    commonMs,
    presetsMs,
    ofPathMs: (pair) => changeMs(pair) - commonMs - (presetsMs.get(pair.place.presetId) ?? 0),
  };
}

function changeMs({ before, after }: WholePair): number {
  return after.path.delayMs - before.path.delayMs;
}

/**
 * The value that lies nearest to all values together (least sum of distances: a median). Between two middle values, all
 * serve; the one nearest to 0 is taken. No values give 0.
 *
 * Few paths that moved do not move it, so they stand out against the many that did not.
 */
export function centralValue(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = values.toSorted((a, b) => a - b);
  const lower = sorted[(sorted.length - 1) >> 1]!;
  const upper = sorted[sorted.length >> 1]!;
  if (lower <= 0 && upper >= 0) return 0;
  return Math.abs(lower) < Math.abs(upper) ? lower : upper;
}
