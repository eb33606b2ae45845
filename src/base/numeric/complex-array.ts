/** Complex numbers side by side: value k is re[k] + j·im[k]. Both arrays have the same length. */
export interface ComplexArray {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** A complex array filled with one value. @defaultValue 0 */
export function complexArray(length: number, re = 0, im = 0): ComplexArray {
  return { re: new Float64Array(length).fill(re), im: new Float64Array(length).fill(im) };
}

/** target[k] ← target[k] · factor[k]. */
export function multiplyInto(target: ComplexArray, factor: ComplexArray): void {
  const { re, im } = target;
  for (let k = 0; k < re.length; k++) {
    const a = re[k]!;
    const b = im[k]!;
    const c = factor.re[k]!;
    const d = factor.im[k]!;
    re[k] = a * c - b * d;
    im[k] = a * d + b * c;
  }
}

/** target[k] ← target[k] · scale, for a real scale. */
export function scaleInto({ re, im }: ComplexArray, scale: number): void {
  for (let k = 0; k < re.length; k++) {
    re[k] = re[k]! * scale;
    im[k] = im[k]! * scale;
  }
}

/** target[k] ← target[k] + scale · term[k], for a real scale. */
export function addScaledInto(target: ComplexArray, term: ComplexArray, scale: number): void {
  const { re, im } = target;
  for (let k = 0; k < re.length; k++) {
    re[k] = re[k]! + scale * term.re[k]!;
    im[k] = im[k]! + scale * term.im[k]!;
  }
}

/** |value[k]|². */
export function squaredMagnitude(values: ComplexArray): Float64Array {
  const power = new Float64Array(values.re.length);
  for (let k = 0; k < power.length; k++) power[k] = values.re[k]! ** 2 + values.im[k]! ** 2;
  return power;
}

/** Angle of each value in radians, in [−π, π]; 0 where the value is 0. */
export function phaseOf(values: ComplexArray): Float64Array {
  const phase = new Float64Array(values.re.length);
  for (let k = 0; k < phase.length; k++) phase[k] = Math.atan2(values.im[k]!, values.re[k]!);
  return phase;
}

/**
 * The same angles with whole turns added so that neighbours differ by at most π. The first one stays. True phase only
 * where the points lie close enough for that.
 */
export function unwrapped(phaseRad: ArrayLike<number>): Float64Array {
  const result = Float64Array.from(phaseRad);
  let turns = 0;
  for (let k = 1; k < result.length; k++) {
    turns -= Math.round((phaseRad[k]! - phaseRad[k - 1]!) / (2 * Math.PI));
    result[k] = phaseRad[k]! + turns * 2 * Math.PI;
  }
  return result;
}
