import {
  boundedLeastSquares,
  type LeastSquaresBudget,
  type LeastSquaresModel,
  type LeastSquaresWorkspace,
} from "../../base/numeric/index.ts";
import { sectionDerivatives, sectionSpan } from "./section-derivatives.ts";
import { addedLevels, type ResponseAxis, type Section } from "./section-response.ts";

/** The limits of a section's parameters; equal limits hold a parameter. */
export interface SectionBox {
  readonly lnF: readonly [number, number];
  readonly gainDb: readonly [number, number];
  readonly lnShape: readonly [number, number];
}

export interface FittedSections {
  readonly sections: readonly Section[];
  /** base + levels of the sections. */
  readonly residual: Float64Array;
  readonly sumOfSquares: number;
  readonly iterations: number;
}

/** Where a fit takes place, and what it may compute in. */
export interface FitPlace {
  readonly axis: ResponseAxis;
  readonly workspace?: (parameters: number) => LeastSquaresWorkspace;
}

/** Largest change in one iteration: an octave, 4 dB, a factor of 2. */
const MAX_STEP = [0.7, 4, 0.7] as const;

/**
 * Moves sections to the least Σ(base + their levels)². They come out in the order of the frequencies they started from: then
 * sections that do not touch each other are far apart in the normal equations, which are solved faster for it.
 *
 * @param unsorted the sections
 * @param boxes the limits of each section, in the same order
 * @param base the scaled residual without these sections
 */
export function fitSections(
  { axis, workspace }: FitPlace,
  unsorted: readonly Section[],
  boxes: readonly SectionBox[],
  base: Float64Array,
  budget: LeastSquaresBudget,
): FittedSections {
  const order = [...unsorted.keys()].sort((a, b) => unsorted[a]!.lnF - unsorted[b]!.lnF || a - b);
  const sections = order.map((index) => unsorted[index]!);
  const parameters = 3 * sections.length;
  const p = new Float64Array(parameters);
  const lower = new Float64Array(parameters);
  const upper = new Float64Array(parameters);
  const maxStep = new Float64Array(parameters);
  for (let s = 0; s < sections.length; s++) {
    const { lnF, gainDb, lnShape } = sections[s]!;
    const box = boxes[order[s]!]!;
    p.set([lnF, gainDb, lnShape], 3 * s);
    lower.set([box.lnF[0], box.gainDb[0], box.lnShape[0]], 3 * s);
    upper.set([box.lnF[1], box.gainDb[1], box.lnShape[1]], 3 * s);
    maxStep.set(MAX_STEP, 3 * s);
  }
  const at = (values: Float64Array, s: number): Section => ({
    kind: sections[s]!.kind,
    bySlope: sections[s]!.bySlope,
    lnF: values[3 * s]!,
    gainDb: values[3 * s + 1]!,
    lnShape: values[3 * s + 2]!,
  });
  const model: LeastSquaresModel = {
    rows: axis.rows,
    parameters,
    residual(values, out) {
      addedLevels(
        axis,
        sections.map((_, s) => at(values, s)),
        base,
        out,
      );
    },
    jacobian(values, columns) {
      for (let s = 0; s < sections.length; s++) {
        sectionDerivatives(axis, at(values, s), columns, 3 * s * axis.rows);
      }
    },
    spans(values, out) {
      for (let s = 0; s < sections.length; s++) {
        sectionSpan(axis, at(values, s), out, 6 * s);
        for (const k of [2, 4]) {
          out[6 * s + k] = out[6 * s]!;
          out[6 * s + k + 1] = out[6 * s + 1]!;
        }
      }
    },
  };
  const residual = new Float64Array(axis.rows);
  const limits = { lower, upper, maxStep };
  const result = boundedLeastSquares(model, p, residual, limits, budget, workspace?.(parameters));
  return {
    sections: sections.map((_, s) => at(p, s)),
    residual,
    sumOfSquares: result.sumOfSquares,
    iterations: result.iterations,
  };
}
