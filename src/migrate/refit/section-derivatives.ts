import {
  cornerTangentSquared,
  DB_PER_NEPER,
  inverseQSquared,
  LN_A_PER_DB,
  type ResponseAxis,
  type Section,
} from "./section-response.ts";

/**
 * The derivatives of the scaled response in dB by ln f₀, by the gain in dB and by ln shape, in three columns of `rows`
 * values from `offset` on.
 */
export function sectionDerivatives(
  axis: ResponseAxis,
  section: Section,
  columns: Float64Array,
  offset: number,
): void {
  if (section.kind === "peaking") peakingDerivatives(axis, section, columns, offset);
  else shelfDerivatives(axis, section, columns, offset);
  if (section.bySlope) fromQToSlope(axis, section, columns, offset);
}

/** Outside of its span a section changes by less than about this part of what it changes at its center. */
const SPAN_PART = 1 / 100;

/** Writes the rows outside of which the derivatives of a section are nearly zero: the first, and one past the last. */
export function sectionSpan(axis: ResponseAxis, section: Section, out: Int32Array, at: number): void {
  const { lnTangent, rows } = axis;
  out[at] = 0;
  out[at + 1] = rows;
  if (section.kind !== "peaking") return;
  // The parts are a/(x + a) and b/(x + b) with x = (2 sinh ln u)².
  const lnA = LN_A_PER_DB * Math.abs(section.gainDb);
  const reach = Math.asinh(Math.exp(lnA - section.lnShape) / (2 * Math.sqrt(SPAN_PART)));
  const center = Math.log(cornerTangentSquared(axis, section.lnF)) / 2;
  out[at] = firstAbove(lnTangent, center - reach);
  out[at + 1] = firstAbove(lnTangent, center + reach);
}

/** Index of the first of some rising values that is above a limit. */
function firstAbove(values: Float64Array, limit: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! > limit) high = middle;
    else low = middle + 1;
  }
  return low;
}

function peakingDerivatives(
  axis: ResponseAxis,
  section: Section,
  columns: Float64Array,
  offset: number,
): void {
  const { tangentSquared, tangentSquaredInverse, scale, rows } = axis;
  const corner = cornerTangentSquared(axis, section.lnF);
  const a2 = Math.exp(2 * LN_A_PER_DB * section.gainDb);
  const perQ2 = Math.exp(-2 * section.lnShape);
  const a = a2 * perQ2;
  const b = perQ2 / a2;
  const perCorner = 1 / corner;
  const byLnQ = -2 * DB_PER_NEPER;
  const byLnF = byLnQ * cornerSlope(axis, section.lnF) * (b - a);
  const gainAt = offset + rows;
  const shapeAt = gainAt + rows;
  for (let i = 0; i < rows; i++) {
    const u2 = tangentSquared[i]! * perCorner;
    const u2Inverse = tangentSquaredInverse[i]! * corner;
    const xa = u2 + u2Inverse - 2 + a;
    const xb = u2 + u2Inverse - 2 + b;
    const perBoth = scale[i]! / (xa * xb);
    const pa = a * xb * perBoth;
    const pb = b * xa * perBoth;
    columns[offset + i] = byLnF * perBoth * (u2 - u2Inverse);
    columns[gainAt + i] = 0.5 * (pa + pb);
    columns[shapeAt + i] = byLnQ * (pa - pb);
  }
}

function shelfDerivatives(axis: ResponseAxis, section: Section, columns: Float64Array, offset: number): void {
  const { scale, rows } = axis;
  const low = section.kind === "low-shelf";
  const table = low ? axis.tangentSquared : axis.tangentSquaredInverse;
  const corner = cornerTangentSquared(axis, section.lnF);
  const toV = low ? 1 / corner : corner;
  const A = Math.exp(LN_A_PER_DB * section.gainDb);
  const perQ2 = inverseQSquared(section, A);
  const byLnV = (low ? -2 : 2) * cornerSlope(axis, section.lnF) * DB_PER_NEPER;
  const byGain = LN_A_PER_DB * A * DB_PER_NEPER;
  for (let i = 0; i < rows; i++) {
    const v = table[i]! * toV;
    const c = A * v * perQ2;
    const perTop = 1 / ((A - v) * (A - v) + c);
    const perBottom = 1 / ((1 - A * v) * (1 - A * v) + c);
    const topByLnV = (c - 2 * v * (A - v)) * perTop;
    const bottomByLnV = (c - 2 * A * v * (1 - A * v)) * perBottom;
    const topByA = (2 * (A - v) + v * perQ2) * perTop;
    const bottomByA = (v * perQ2 - 2 * v * (1 - A * v)) * perBottom;
    const w = scale[i]!;
    columns[offset + i] = w * byLnV * (topByLnV - bottomByLnV);
    columns[offset + rows + i] = w * byGain * (2 / A + topByA - bottomByA);
    columns[offset + 2 * rows + i] = w * -2 * DB_PER_NEPER * c * (perTop - perBottom);
  }
}

/** Turns the columns of a shelf set by Q into those of the same shelf set by slope (chain rule). */
function fromQToSlope(axis: ResponseAxis, section: Section, columns: Float64Array, offset: number): void {
  const { rows } = axis;
  const A = Math.exp(LN_A_PER_DB * section.gainDb);
  const perS = Math.exp(-section.lnShape);
  const perQ2 = inverseQSquared(section, A);
  const lnQByLnS = ((A + 1 / A) * perS) / (2 * perQ2);
  const lnQByGain = (-(A - 1 / A) * (perS - 1) * LN_A_PER_DB) / (2 * perQ2);
  const shapeAt = offset + 2 * rows;
  for (let i = 0; i < rows; i++) {
    columns[offset + rows + i]! += columns[shapeAt + i]! * lnQByGain;
    columns[shapeAt + i]! *= lnQByLnS;
  }
}

/** ∂ ln tan(πf₀/fs)/∂ ln f₀ = w₀/sin w₀. */
function cornerSlope(axis: ResponseAxis, lnF: number): number {
  const w0 = (2 * Math.PI * Math.exp(lnF)) / axis.sampleRateHz;
  return w0 / Math.sin(w0);
}
