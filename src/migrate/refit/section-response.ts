/**
 * The squared magnitude of peaking and shelving sections (Audio EQ Cookbook, W3C Working Group Note, 8 June 2021)
 * by closed formulas, on a fixed set of frequencies. The bilinear transform makes each section
 * a function of u = tan(πf/fs)/tan(πf₀/fs) alone, so tangents are tabulated once:
 *
 * - peaking: |H|² = (x + a)/(x + b), x = (u − 1/u)², a = A²/Q², b = 1/(A²Q²), A = 10^(gain/40);
 * - low shelf: |H|² = A²·((A − v)² + A·v/Q²)/((1 − A·v)² + A·v/Q²), v = u²; high shelf: the same with v = 1/u²;
 * - a shelf set by its slope S has 1/Q² = (A + 1/A)(1/S − 1) + 2.
 */

export type SectionKind = "peaking" | "low-shelf" | "high-shelf";

/** One section in the parameters of a fit. */
export interface Section {
  readonly kind: SectionKind;
  /** A shelf's shape is its slope S instead of Q. */
  readonly bySlope: boolean;
  /** ln f₀, f₀ in Hz. */
  readonly lnF: number;
  readonly gainDb: number;
  /** ln Q or ln S. */
  readonly lnShape: number;
}

/** The frequencies of a fit at one sample rate. Every row is scaled by the square root of its weight. */
export interface ResponseAxis {
  readonly rows: number;
  readonly sampleRateHz: number;
  readonly lnF: Float64Array;
  /** ln tan(πf/fs), rising from row to row. */
  readonly lnTangent: Float64Array;
  /** tan²(πf/fs) and its inverse. */
  readonly tangentSquared: Float64Array;
  readonly tangentSquaredInverse: Float64Array;
  /** √weight. */
  readonly scale: Float64Array;
  /** Two arrays to compute in. */
  readonly scratch: readonly [Float64Array, Float64Array];
}

export const DB_PER_NEPER = 10 / Math.LN10;
export const LN_A_PER_DB = Math.LN10 / 40;

/** @param frequenciesHz above 0 and below half the sample rate */
export function responseAxis(
  frequenciesHz: ArrayLike<number>,
  weights: ArrayLike<number> | undefined,
  sampleRateHz: number,
): ResponseAxis {
  const tangentSquared = Float64Array.from(frequenciesHz, (f) => Math.tan((Math.PI * f) / sampleRateHz) ** 2);
  return {
    rows: tangentSquared.length,
    sampleRateHz,
    lnF: Float64Array.from(frequenciesHz, (f) => Math.log(f)),
    lnTangent: tangentSquared.map((t) => Math.log(t) / 2),
    tangentSquared,
    tangentSquaredInverse: tangentSquared.map((t) => 1 / t),
    scale: Float64Array.from(frequenciesHz, (_, i) => Math.sqrt(weights?.[i] ?? 1)),
    scratch: [new Float64Array(tangentSquared.length), new Float64Array(tangentSquared.length)],
  };
}

/** over[i]/under[i] *= |H|² of two peaking sections: (x + a)/(x + b) each. */
function multiplyPeaks(
  axis: ResponseAxis,
  one: Section,
  two: Section,
  over: Float64Array,
  under: Float64Array,
): void {
  const { tangentSquared, tangentSquaredInverse, rows } = axis;
  const corner1 = cornerTangentSquared(axis, one.lnF);
  const corner2 = cornerTangentSquared(axis, two.lnF);
  const perCorner1 = 1 / corner1;
  const perCorner2 = 1 / corner2;
  const a1 = Math.exp(2 * (LN_A_PER_DB * one.gainDb - one.lnShape)) - 2;
  const a2 = Math.exp(2 * (LN_A_PER_DB * two.gainDb - two.lnShape)) - 2;
  const b1 = Math.exp(-2 * (LN_A_PER_DB * one.gainDb + one.lnShape)) - 2;
  const b2 = Math.exp(-2 * (LN_A_PER_DB * two.gainDb + two.lnShape)) - 2;
  for (let i = 0; i < rows; i++) {
    const t = tangentSquared[i]!;
    const tInverse = tangentSquaredInverse[i]!;
    const x1 = t * perCorner1 + tInverse * corner1;
    const x2 = t * perCorner2 + tInverse * corner2;
    over[i]! *= (x1 + a1) * (x2 + a2);
    under[i]! *= (x1 + b1) * (x2 + b2);
  }
}

/** over[i]/under[i] *= |H|² of the section: one division a cascade, not one a section. */
function multiplyPower(axis: ResponseAxis, section: Section, over: Float64Array, under: Float64Array): void {
  const { tangentSquared, tangentSquaredInverse, rows } = axis;
  const corner = cornerTangentSquared(axis, section.lnF);
  const a2 = Math.exp(2 * LN_A_PER_DB * section.gainDb);
  const perQ2 = inverseQSquared(section, Math.sqrt(a2));
  if (section.kind === "peaking") {
    const a = a2 * perQ2 - 2;
    const b = perQ2 / a2 - 2;
    const perCorner = 1 / corner;
    for (let i = 0; i < rows; i++) {
      const x = tangentSquared[i]! * perCorner + tangentSquaredInverse[i]! * corner;
      over[i]! *= x + a;
      under[i]! *= x + b;
    }
    return;
  }
  const low = section.kind === "low-shelf";
  const table = low ? tangentSquared : tangentSquaredInverse;
  const toV = low ? 1 / corner : corner;
  const A = Math.sqrt(a2);
  for (let i = 0; i < rows; i++) {
    const v = table[i]! * toV;
    const c = A * v * perQ2;
    over[i]! *= a2 * ((A - v) * (A - v) + c);
    under[i]! *= (1 - A * v) * (1 - A * v) + c;
  }
}

/** So many sections at a time keep over and under far from the largest number there is. */
const SECTIONS_AT_A_TIME = 20;

/** out[i] = base[i] + √weight · the level in dB of all sections. */
export function addedLevels(
  axis: ResponseAxis,
  sections: readonly Section[],
  base: Float64Array,
  out: Float64Array,
): void {
  const { scale, rows } = axis;
  const [over, under] = axis.scratch;
  out.set(base);
  for (let from = 0; from < sections.length; from += SECTIONS_AT_A_TIME) {
    const to = Math.min(from + SECTIONS_AT_A_TIME, sections.length);
    over.fill(1);
    under.fill(1);
    for (let s = from; s < to; s++) {
      const next = sections[s + 1];
      const pair = s + 1 < to && sections[s]!.kind === "peaking" && next?.kind === "peaking";
      if (pair) multiplyPeaks(axis, sections[s++]!, next, over, under);
      else multiplyPower(axis, sections[s]!, over, under);
    }
    for (let i = 0; i < rows; i++) out[i]! += Math.log(over[i]! / under[i]!) * DB_PER_NEPER * scale[i]!;
  }
}

/** The scaled response of one section in dB. */
export function sectionLevel(axis: ResponseAxis, section: Section): Float64Array {
  const level = new Float64Array(axis.rows);
  addedLevels(axis, [section], level, level);
  return level;
}

/** 1/Q² of a section whose A is known. */
export function inverseQSquared({ bySlope, lnShape }: Section, A: number): number {
  return bySlope ? (A + 1 / A) * (Math.exp(-lnShape) - 1) + 2 : Math.exp(-2 * lnShape);
}

/** tan²(πf₀/fs). */
export function cornerTangentSquared(axis: ResponseAxis, lnF: number): number {
  return Math.tan((Math.PI * Math.exp(lnF)) / axis.sampleRateHz) ** 2;
}
