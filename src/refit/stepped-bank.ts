import { sumOfSquares } from "../numeric/index.ts";
import { boxesOf, type OfferedKind, offeredKind } from "./band-offer.ts";
import { addInto, levelOf } from "./bank.ts";
import type { FitTask } from "./fit-task.ts";
import { fitSections, type SectionBox } from "./section-fit.ts";
import type { Section } from "./section-response.ts";

/** A band on the unit's steps: indices into the grids of its kind, with the section they make. */
export interface SteppedBand {
  readonly offered: OfferedKind;
  readonly frequency: number;
  readonly gain: number;
  readonly shape: number;
  readonly section: Section;
}

/** Bands on the unit's steps, and what they leave. */
export interface SteppedBank {
  readonly bands: readonly SteppedBand[];
  /** Response minus curve, scaled. */
  readonly residual: Float64Array;
  readonly sumOfSquares: number;
}

export function steppedBand(
  offered: OfferedKind,
  frequency: number,
  gain: number,
  shape: number,
): SteppedBand {
  const section: Section = {
    kind: offered.kind,
    bySlope: offered.bySlope,
    lnF: offered.frequency.parameter(frequency),
    gainDb: offered.gain.parameter(gain),
    lnShape: offered.shape.parameter(shape),
  };
  return { offered, frequency, gain, shape, section };
}

/** The bank of some bands over a residual without them. */
export function steppedBank(
  task: FitTask,
  bands: readonly SteppedBand[],
  base: Float64Array = task.bare,
  rest: readonly SteppedBand[] = [],
): SteppedBank {
  const residual = base.slice();
  for (const { section } of bands) addInto(residual, levelOf(task, section), 1);
  return { bands: [...rest, ...bands], residual, sumOfSquares: sumOfSquares(residual) };
}

/** What a bank leaves when some of its bands are taken away. */
export function residualWithout(
  task: FitTask,
  { residual, bands }: SteppedBank,
  indices: readonly number[],
): Float64Array {
  const base = residual.slice();
  for (const index of indices) addInto(base, levelOf(task, bands[index]!.section), -1);
  return base;
}

const STAGE = { maxIterations: 4, relativeDecrease: 1e-4 };

/**
 * Puts sections on the unit's steps one kind of number after the other: frequencies, then Q or slope, then gains, with the
 * numbers still free fitted again after each stage.
 */
export function roundedInStages(
  task: FitTask,
  sections: readonly Section[],
  base: Float64Array,
): readonly SteppedBand[] {
  const offered = sections.map((section) => offeredKind(task.offer, section));
  const boxes = boxesOf(task.offer, sections);
  const frequencies = sections.map(({ lnF }, i) => offered[i]!.frequency.nearest(lnF));
  const atFrequencies = frequencies.map((index, i) => held(offered[i]!.frequency.parameter(index)));
  const first = refitted(sections, (box, i) => ({ ...box, lnF: atFrequencies[i]! }));
  const shapes = first.map(({ lnShape }, i) => offered[i]!.shape.nearest(lnShape));
  const atShapes = shapes.map((index, i) => held(offered[i]!.shape.parameter(index)));
  const second = refitted(first, (box, i) => ({ ...box, lnF: atFrequencies[i]!, lnShape: atShapes[i]! }));
  return second.map(({ gainDb }, i) =>
    steppedBand(offered[i]!, frequencies[i]!, offered[i]!.gain.nearest(gainDb), shapes[i]!),
  );

  function refitted(
    from: readonly Section[],
    boxOf: (box: SectionBox, index: number) => SectionBox,
  ): readonly Section[] {
    const fitted = fitSections(task.axis, from, boxes.map(boxOf), base, STAGE);
    task.count.iterations += fitted.iterations;
    return fitted.sections;
  }
}

function held(parameter: number): [number, number] {
  return [parameter, parameter];
}
