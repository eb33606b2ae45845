/**
 * One thing to choose for: any one of its alternatives. An alternative is a list of lists of candidate values; a window
 * serves it when it holds at least one candidate of each list.
 */
export type WindowGroup = readonly (readonly (readonly number[])[])[];

/** A window that serves every group. */
export interface Window {
  readonly low: number;
  readonly high: number;
  /** For each group: the alternative, and for each of its lists the index of the candidate. */
  readonly picks: readonly { readonly alternative: number; readonly candidates: readonly number[] }[];
}

/** Two widths or values that differ by less count as equal: far below any step, far above rounding errors. */
const EQUAL = 1e-9;

/**
 * All narrowest windows [low, high] that hold, for each group, one candidate of every list of one of its alternatives;
 * ascending. Exact: a narrowest window starts at a candidate, so every candidate is tried as `low`. Within a window
 * each list takes its candidate nearest to the middle of the window.
 *
 * It answers the question how to round many values so that they move alike: candidates are the errors that the
 * settings of a unit would bring, and the width of the window is the largest difference that comes in.
 *
 * @returns an empty list when some group cannot be served at all; one window of width 0 when there are no groups.
 */
export function narrowestWindows(groups: readonly WindowGroup[]): readonly Window[] {
  if (groups.length === 0) return [{ low: 0, high: 0, picks: [] }];
  const sweeps = groups.map((group) => group.map((alternative) => alternative.map(startSweep)));
  const spans: { low: number; high: number }[] = [];
  let narrowest = Number.POSITIVE_INFINITY;
  for (const low of distinct(groups.flat(2).flat())) {
    const high = reachOf(sweeps, low, low + narrowest + EQUAL);
    if (high === undefined) continue;
    narrowest = Math.min(narrowest, high - low);
    spans.push({ low, high });
  }
  return spans
    .filter(({ low, high }) => high - low <= narrowest + EQUAL)
    .map(({ low, high }) => ({ low, high, picks: groups.map((group) => pick(group, low, high)) }));
}

/** The window among equally narrow ones whose middle is nearest to a value; the lower one when two are equally near. */
export function windowNearest(windows: readonly Window[], value: number): Window | undefined {
  let best: Window | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const window of windows) {
    const distance = Math.abs(middleOf(window) - value);
    if (distance < bestDistance - EQUAL) {
      best = window;
      bestDistance = distance;
    }
  }
  return best;
}

export function middleOf({ low, high }: Pick<Window, "low" | "high">): number {
  return (low + high) / 2;
}

/** Candidates in ascending order, and how far a rising `low` has passed them. */
interface Sweep {
  readonly ascending: readonly number[];
  passed: number;
}

function startSweep(candidates: readonly number[]): Sweep {
  return { ascending: [...candidates].sort((a, b) => a - b), passed: 0 };
}

/**
 * The smallest `high` with which a window from `low` serves every group; undefined when none up to `limit` does. To be
 * asked with rising `low` only.
 */
function reachOf(
  groups: readonly (readonly (readonly Sweep[])[])[],
  low: number,
  limit: number,
): number | undefined {
  let high = low;
  for (const group of groups) {
    let nearest = Number.POSITIVE_INFINITY;
    for (const alternative of group) nearest = Math.min(nearest, alternativeReach(alternative, low, nearest));
    if (nearest > limit || nearest === Number.POSITIVE_INFINITY) return undefined;
    high = Math.max(high, nearest);
  }
  return high;
}

/** The reach of one alternative, or anything from `limit` on. */
function alternativeReach(lists: readonly Sweep[], low: number, limit: number): number {
  let high = low;
  for (const sweep of lists) {
    const { ascending } = sweep;
    while (sweep.passed < ascending.length && ascending[sweep.passed]! < low - EQUAL) sweep.passed += 1;
    high = Math.max(high, ascending[sweep.passed] ?? Number.POSITIVE_INFINITY);
    if (high >= limit) break;
  }
  return high;
}

function pick(group: WindowGroup, low: number, high: number): Window["picks"][number] {
  const middle = (low + high) / 2;
  let best: { alternative: number; candidates: number[]; cost: number } | undefined;
  group.forEach((alternative, index) => {
    const candidates = alternative.map((values) => nearestInside(values, { low, high, middle }));
    if (candidates.includes(-1)) return;
    const cost = Math.max(0, ...candidates.map((at, list) => Math.abs(alternative[list]![at]! - middle)));
    if (best === undefined || cost < best.cost - EQUAL) best = { alternative: index, candidates, cost };
  });
  return { alternative: best!.alternative, candidates: best!.candidates };
}

function nearestInside(
  values: readonly number[],
  { low, high, middle }: { readonly low: number; readonly high: number; readonly middle: number },
): number {
  let best = -1;
  values.forEach((value, index) => {
    if (value < low - EQUAL || value > high + EQUAL) return;
    if (best < 0 || Math.abs(value - middle) < Math.abs(values[best]! - middle) - EQUAL) best = index;
  });
  return best;
}

function distinct(values: readonly number[]): readonly number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, index) => index === 0 || value - sorted[index - 1]! > EQUAL);
}
