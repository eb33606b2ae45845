/** A candidate, and how much it would change. */
export interface Choice {
  readonly value: number;
  /** The less, the rather it is taken among equally good ones. */
  readonly change: number;
}

/** One way to do a thing: a window serves it when it holds at least one choice of each list. */
export interface Alternative {
  readonly change: number;
  readonly lists: readonly (readonly Choice[])[];
}

/** One thing to choose for: any one of its alternatives. */
export type WindowGroup = readonly Alternative[];

/** A window that serves every group. */
export interface Window {
  readonly low: number;
  readonly high: number;
  /** For each group: the alternative, and for each of its lists the index of the choice. */
  readonly picks: readonly { readonly alternative: number; readonly candidates: readonly number[] }[];
}

/** Two widths or values that differ by less count as equal: far below any step, far above rounding errors. */
const EQUAL = 1e-9;

/**
 * All narrowest windows [low, high] that hold, for each group, one candidate of every list of one of its alternatives;
 * ascending. Exact: a narrowest window starts at a candidate, so every candidate is tried as `low`. Within a window
 * each list takes the choice nearest to the middle of the window, and among equally near ones the one that changes least.
 *
 * It answers the question how to round many values so that they move alike: candidates are the errors that the
 * settings of a unit would bring, and the width of the window is the largest difference that comes in.
 *
 * @returns an empty list when some group cannot be served at all; one window of width 0 when there are no groups.
 */
export function narrowestWindows(groups: readonly WindowGroup[]): readonly Window[] {
  if (groups.length === 0) return [{ low: 0, high: 0, picks: [] }];
  const sweeps = groups.map((group) => group.map(({ lists }) => lists.map(startSweep)));
  const spans: { low: number; high: number }[] = [];
  let narrowest = Number.POSITIVE_INFINITY;
  for (const low of distinct(allValues(groups))) {
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

function startSweep(choices: readonly Choice[]): Sweep {
  return { ascending: choices.map(({ value }) => value).sort((a, b) => a - b), passed: 0 };
}

function allValues(groups: readonly WindowGroup[]): readonly number[] {
  return groups.flatMap((group) => group.flatMap(({ lists }) => lists.flat().map(({ value }) => value)));
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

interface Picked {
  readonly alternative: number;
  readonly candidates: readonly number[];
  /** Largest distance from the middle of the window. */
  readonly off: number;
  readonly change: number;
}

function pick(group: WindowGroup, low: number, high: number): Window["picks"][number] {
  const middle = (low + high) / 2;
  let best: Picked | undefined;
  group.forEach(({ change, lists }, alternative) => {
    const candidates = lists.map((choices) => nearestInside(choices, { low, high, middle }));
    if (candidates.includes(-1)) return;
    const chosen = candidates.map((at, list) => lists[list]![at]!);
    const picked = {
      alternative,
      candidates,
      off: Math.max(0, ...chosen.map(({ value }) => Math.abs(value - middle))),
      change: chosen.reduce((sum, choice) => sum + choice.change, change),
    };
    if (best === undefined || isBetter(picked, best)) best = picked;
  });
  return { alternative: best!.alternative, candidates: best!.candidates };
}

function isBetter(a: Pick<Picked, "off" | "change">, b: Pick<Picked, "off" | "change">): boolean {
  return a.off < b.off - EQUAL || (a.off <= b.off + EQUAL && a.change < b.change - EQUAL);
}

function nearestInside(
  choices: readonly Choice[],
  { low, high, middle }: { readonly low: number; readonly high: number; readonly middle: number },
): number {
  let best = -1;
  let least = { off: 0, change: 0 };
  choices.forEach(({ value, change }, index) => {
    if (value < low - EQUAL || value > high + EQUAL) return;
    const here = { off: Math.abs(value - middle), change };
    if (best >= 0 && !isBetter(here, least)) return;
    best = index;
    least = here;
  });
  return best;
}

function distinct(values: readonly number[]): readonly number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, index) => index === 0 || value - sorted[index - 1]! > EQUAL);
}
