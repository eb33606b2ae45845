/** The largest value of a part of the spectrum, by size. */
export interface Extreme {
  /** Signed. */
  readonly value: number;
  readonly atHz: number;
}

/** A curve over a grid of frequencies. */
export interface SampledCurve {
  readonly frequenciesHz: Float64Array;
  readonly values: Float64Array;
  /** The parts that have an extreme each: index of the first frequency, and of the first one after it, in order. */
  readonly parts: readonly (readonly [start: number, end: number])[];
}

/** Points looked at between the neighbours of an extreme of the grid. */
const INNER_POINTS = 7;
/** An extreme that could be larger than the largest is looked at, up to so many in a part. */
const LOOKED_AT_MOST = 6;
/** Below this nothing is worth a second look. */
const NOTHING = 1e-6;

interface Candidate {
  readonly index: number;
  readonly part: number;
  /** What the parabola through it and its neighbours reaches. */
  readonly estimate: number;
}

/**
 * The extremes of a curve, closer than its grid: where one lies between points of the grid, the curve is computed there.
 *
 * @param at the curve at any frequencies (in Hz, increasing)
 */
export function exactExtremes(
  curve: SampledCurve,
  at: (frequenciesHz: Float64Array) => Float64Array,
): readonly Extreme[] {
  const { frequenciesHz, values, parts } = curve;
  const chosen = parts.flatMap((_, part) => candidatesOf(curve, part));
  const extremes = parts.map(([start, end]): Extreme => {
    let index = start;
    for (let k = start; k < end; k++) if (Math.abs(values[k]!) > Math.abs(values[index]!)) index = k;
    return index < end
      ? { value: values[index]!, atHz: frequenciesHz[index]! }
      : { value: 0, atHz: frequenciesHz[Math.min(start, frequenciesHz.length - 1)]! };
  });
  if (chosen.length === 0) return extremes;
  const brackets = chosen.map((candidate) => bracketOf(curve, candidate));
  const inner = at(Float64Array.from(brackets.flatMap(({ inside }) => inside)));
  let used = 0;
  brackets.forEach(({ part, from, to, inside }) => {
    const hz = [frequenciesHz[from]!, ...inside, frequenciesHz[to]!];
    const db = [values[from]!, ...inner.subarray(used, used + inside.length), values[to]!];
    used += inside.length;
    const found = peakOf(hz, db);
    if (Math.abs(found.value) > Math.abs(extremes[part]!.value)) extremes[part] = found;
  });
  return extremes;
}

function candidatesOf({ values, parts, frequenciesHz }: SampledCurve, part: number): readonly Candidate[] {
  const [start, end] = parts[part]!;
  const found: Candidate[] = [];
  for (let k = start; k < end; k++) {
    const size = Math.abs(values[k]!);
    const below = k > start ? Math.abs(values[k - 1]!) : undefined;
    const above = k + 1 < end ? Math.abs(values[k + 1]!) : undefined;
    // Of equal neighbours the first counts, so that no two brackets overlap.
    if (size < NOTHING || size <= (below ?? -1) || size < (above ?? 0)) continue;
    if (below === undefined && above === undefined) continue;
    const x = [k - 1, k, k + 1].map((index) => Math.log(frequenciesHz[index] ?? Number.NaN));
    const estimate =
      below === undefined || above === undefined
        ? size + Math.abs(size - (below ?? above)!)
        : vertex([x[0]!, x[1]!, x[2]!], [below, size, above]).y;
    found.push({ index: k, part, estimate });
  }
  const best = found.reduce((most, { estimate }) => Math.max(most, estimate), 0);
  // The parabola is off by about as much as it adds.
  const could = ({ index, estimate }: Candidate) => 2 * estimate - Math.abs(values[index]!) >= best;
  return found
    .filter(could)
    .sort((a, b) => b.estimate - a.estimate)
    .slice(0, LOOKED_AT_MOST)
    .sort((a, b) => a.index - b.index);
}

function bracketOf({ frequenciesHz, parts }: SampledCurve, { index, part }: Candidate) {
  const [start, end] = parts[part]!;
  const from = Math.max(index - 1, start);
  const to = Math.min(index + 1, end - 1);
  const ratio = frequenciesHz[to]! / frequenciesHz[from]!;
  const inside = Array.from(
    { length: INNER_POINTS },
    (_, k) => frequenciesHz[from]! * ratio ** ((k + 1) / (INNER_POINTS + 1)),
  );
  return { part, from, to, inside };
}

/** The largest value of close samples, with what the parabola through it and its neighbours adds. */
function peakOf(hz: readonly number[], values: readonly number[]): Extreme {
  let index = 0;
  for (let k = 1; k < values.length; k++) if (Math.abs(values[k]!) > Math.abs(values[index]!)) index = k;
  const sampled = { value: values[index]!, atHz: hz[index]! };
  if (index === 0 || index === values.length - 1) return sampled;
  const around = [index - 1, index, index + 1];
  const [x, y] = [around.map((k) => Math.log(hz[k]!)), around.map((k) => values[k]!)];
  const found = vertex([x[0]!, x[1]!, x[2]!], [y[0]!, y[1]!, y[2]!]);
  return { value: found.y, atHz: Math.exp(found.x) };
}

type Three = readonly [number, number, number];

/** The vertex of the parabola through three points, the middle one the largest by size. */
function vertex(x: Three, y: Three): { readonly x: number; readonly y: number } {
  const [left, right] = [x[0] - x[1], x[2] - x[1]];
  const [slopeLeft, slopeRight] = [(y[0] - y[1]) / left, (y[2] - y[1]) / right];
  const curvature = (slopeRight - slopeLeft) / (right - left);
  if (curvature === 0) return { x: x[1], y: y[1] };
  const slope = slopeLeft - curvature * left;
  const step = -slope / (2 * curvature);
  return { x: x[1] + step, y: y[1] + (slope * step) / 2 };
}
