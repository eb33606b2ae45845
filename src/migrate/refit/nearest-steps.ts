import {
  choleskyFactor,
  choleskySolve,
  gramMatrix,
  sumOfSquares,
  transposedTimes,
} from "../../base/numeric/index.ts";
import { offeredKind } from "./band-offer.ts";
import { addInto, levelOf } from "./bank.ts";
import { type BeamVariable, beamSearch } from "./beam-search.ts";
import type { FitTask } from "./fit-task.ts";
import { sectionDerivatives } from "./section-derivatives.ts";
import { type Section, sectionLevel } from "./section-response.ts";
import { type SteppedBand, type SteppedBank, steppedBand } from "./stepped-bank.ts";

/** Damping of the quadratic model, as a part of its diagonal: far from the sections it says little. */
const DAMPING = 1e-3;
/** A step smaller than this needs no choice: the nearest will do. In ln f, dB, ln shape. */
const FINE_STEP = [Math.LN2 / 200, 0.04, 0.01] as const;
/** No parameter goes farther from the sections than this. In ln f, dB, ln shape. */
const FARTHEST = [0.15, 2, 0.5] as const;

/**
 * The bands on the unit's steps that leave the least near some sections, out of a beam of choices. Around the sections the
 * sum of squares is nearly a quadratic form, so that a beam search over its Cholesky factor finds good choices; those are
 * then computed exactly.
 *
 * @param base the scaled residual without these sections
 * @param beam how many choices are followed
 */
export function nearestSteps(
  task: FitTask,
  sections: readonly Section[],
  base: Float64Array,
  beam: number,
): SteppedBank {
  const order = [...sections].sort((a, b) => a.lnF - b.lnF);
  const { meaning, factor, center } = quadraticModel(task, order, base);
  const variables = meaning.map((number): BeamVariable => {
    const section = order[Math.floor(number / 3)]!;
    const kind = number % 3;
    const { frequency, gain, shape } = offeredKind(task.offer, section);
    return {
      grid: [frequency, gain, shape][kind]!,
      at: parameters(section)[kind]!,
      fineStep: FINE_STEP[kind]!,
      farthest: FARTHEST[kind]!,
    };
  });
  const choices = beamSearch(variables, factor, center, beam);
  const byNumber = choices.map((choice) => {
    const indices: number[] = [];
    meaning.forEach((number, v) => {
      indices[number] = choice[v]!;
    });
    return indices;
  });
  return leastExactly(task, order, base, byNumber);
}

/** The same once more around what was found, where the quadratic form is truer. */
export function settledSteps(
  task: FitTask,
  sections: readonly Section[],
  base: Float64Array,
  beam: number,
): SteppedBank {
  const first = nearestSteps(task, sections, base, beam);
  const again = nearestSteps(
    task,
    first.bands.map(({ section }) => section),
    base,
    beam,
  );
  return again.sumOfSquares < first.sumOfSquares ? again : first;
}

/** The sum of squares around some sections, as a quadratic form of their numbers. */
interface QuadraticModel {
  /** Which number each variable is: 3·section + (0: ln f, 1: gain, 2: ln shape). */
  readonly meaning: readonly number[];
  /** Lower Cholesky factor, row by row. */
  readonly factor: Float64Array;
  /** Deviation of the least point from the sections. */
  readonly center: Float64Array;
}

/**
 * Variables are decided from the last to the first: numbers at a limit that would rather be beyond it, as nothing can be
 * done about them; then section after section its frequency, its shape, its gain.
 */
function quadraticModel(task: FitTask, sections: readonly Section[], base: Float64Array): QuadraticModel {
  const { rows } = task.axis;
  const count = 3 * sections.length;
  const { columns, gram, damped, gradient, step } = task.workspace(count);
  const residual = base.slice();
  const numbers: number[] = [];
  sections.forEach((section, s) => {
    sectionDerivatives(task.axis, section, columns, 3 * s * rows);
    addInto(residual, sectionLevel(task.axis, section), 1);
    numbers.push(3 * s + 1, 3 * s + 2, 3 * s);
  });
  transposedTimes(columns, rows, numbers, residual, gradient);
  const outward = numbers.map((number, v) =>
    outwardAtLimit(task, sections[Math.floor(number / 3)]!, number % 3, gradient[v]!),
  );
  const order = [...numbers.keys()].sort((a, b) => Number(outward[a]) - Number(outward[b]) || a - b);
  const meaning = order.map((v) => numbers[v]!);
  gramMatrix(columns, rows, meaning, gram);
  for (let damping = DAMPING; ; damping *= 10) {
    damped.set(gram.subarray(0, count * count));
    for (let v = 0; v < count; v++) {
      const d = v * count + v;
      damped[d] = damped[d]! * (1 + damping) + 1e-9;
      step[v] = -gradient[order[v]!]!;
    }
    if (choleskyFactor(damped, count)) break;
  }
  choleskySolve(damped, count, step);
  return { meaning, factor: damped, center: step };
}

function outwardAtLimit(task: FitTask, section: Section, kind: number, slope: number): boolean {
  const { box } = offeredKind(task.offer, section);
  const [low, high] = [box.lnF, box.gainDb, box.lnShape][kind]!;
  const at = parameters(section)[kind]!;
  return slope > 0 ? at <= low : at >= high;
}

function parameters({ lnF, gainDb, lnShape }: Section): readonly [number, number, number] {
  return [lnF, gainDb, lnShape];
}

function leastExactly(
  task: FitTask,
  sections: readonly Section[],
  base: Float64Array,
  choices: readonly (readonly number[])[],
): SteppedBank {
  const residual = new Float64Array(base.length);
  const sumOf = (bands: readonly SteppedBand[]) => {
    residual.set(base);
    for (const { section } of bands) addInto(residual, levelOf(task, section), 1);
    return sumOfSquares(residual);
  };
  let least = Number.POSITIVE_INFINITY;
  let best: readonly SteppedBand[] = [];
  for (const choice of choices) {
    const bands = sections.map((section, s) => {
      const [frequency, gain, shape] = [choice[3 * s]!, choice[3 * s + 1]!, choice[3 * s + 2]!];
      return steppedBand(task, offeredKind(task.offer, section), frequency, gain, shape);
    });
    const sum = sumOf(bands);
    if (sum < least) {
      least = sum;
      best = bands;
    }
  }
  return { bands: best, sumOfSquares: sumOf(best), residual };
}
