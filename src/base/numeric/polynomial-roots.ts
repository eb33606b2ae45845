/** One root of a polynomial. */
export interface Root {
  readonly re: number;
  readonly im: number;
}

const MAX_SWEEPS = 200;

/**
 * All roots of a real polynomial by the simultaneous iteration of Ehrlich and Aberth, to the accuracy of doubles where
 * the roots are simple and well apart. Meant for small degrees (up to about 20).
 *
 * @param ascending coefficients c₀ + c₁x + c₂x² + …; the last one is not 0.
 * @returns as many roots as the degree; complex ones in no particular order.
 */
export function polynomialRoots(ascending: readonly number[]): readonly Root[] {
  const degree = ascending.length - 1;
  const leading = ascending[degree]!;
  const monic = ascending.map((c) => c / leading);
  const radius = Math.abs(monic[0]!) ** (1 / degree);
  const re = new Float64Array(degree);
  const im = new Float64Array(degree);
  for (let k = 0; k < degree; k++) {
    // Off the axes by an odd angle, so that no starting point is the mirror of another.
    const angle = (2 * Math.PI * k) / degree + 0.4;
    re[k] = radius * Math.cos(angle);
    im[k] = radius * Math.sin(angle);
  }
  for (let sweep = 0; sweep < MAX_SWEEPS; sweep++) {
    if (largestStep(monic, re, im) <= 1e-15 * radius) break;
  }
  return Array.from(re, (x, k) => ({ re: x, im: im[k]! }));
}

/** One sweep over all roots; gives the length of the longest step taken. */
function largestStep(monic: readonly number[], re: Float64Array, im: Float64Array): number {
  let largest = 0;
  for (let k = 0; k < re.length; k++) {
    const newton = newtonStep(monic, re[k]!, im[k]!);
    let sumRe = 0;
    let sumIm = 0;
    for (let j = 0; j < re.length; j++) {
      if (j === k) continue;
      const dRe = re[k]! - re[j]!;
      const dIm = im[k]! - im[j]!;
      const d2 = dRe * dRe + dIm * dIm;
      sumRe += dRe / d2;
      sumIm -= dIm / d2;
    }
    const step = divide(
      newton.re,
      newton.im,
      1 - (newton.re * sumRe - newton.im * sumIm),
      -(newton.re * sumIm + newton.im * sumRe),
    );
    re[k] = re[k]! - step.re;
    im[k] = im[k]! - step.im;
    largest = Math.max(largest, Math.hypot(step.re, step.im));
  }
  return largest;
}

/** p(x)/p′(x) by Horner's rule. */
function newtonStep(monic: readonly number[], xRe: number, xIm: number): Root {
  let pRe = 0;
  let pIm = 0;
  let dRe = 0;
  let dIm = 0;
  for (let k = monic.length - 1; k >= 0; k--) {
    const nextD = dRe * xRe - dIm * xIm + pRe;
    dIm = dRe * xIm + dIm * xRe + pIm;
    dRe = nextD;
    const nextP = pRe * xRe - pIm * xIm + monic[k]!;
    pIm = pRe * xIm + pIm * xRe;
    pRe = nextP;
  }
  return divide(pRe, pIm, dRe, dIm);
}

function divide(aRe: number, aIm: number, bRe: number, bIm: number): Root {
  const b2 = bRe * bRe + bIm * bIm;
  return { re: (aRe * bRe + aIm * bIm) / b2, im: (aIm * bRe - aRe * bIm) / b2 };
}
