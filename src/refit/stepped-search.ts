import { insideBox, offeredKind } from "./band-offer.ts";
import { nearestSections } from "./bank.ts";
import { type FitTask, normal } from "./fit-task.ts";
import { bestNeighbour } from "./neighbouring-steps.ts";
import { placedSection } from "./placement.ts";
import { fitSections } from "./section-fit.ts";
import type { Section } from "./section-response.ts";
import { residualWithout, roundedInStages, type SteppedBank, steppedBank } from "./stepped-bank.ts";

const FEWEST_FREED = 2;
const MOST_FREED = 3;
const FREED_FIT = { maxIterations: 8, relativeDecrease: 1e-5 };
/** Spread of the start around the present values: ln f, part of the gain, ln shape. */
const JITTER = { lnF: 0.03, gain: 0.1, lnShape: 0.15 };
/** A rounded trial within this factor of the best sum is worth a search of the neighbouring steps. */
const PROMISING = 1.5;
const LEAST_GAIN = 1e-9;

/**
 * Makes a stepped bank better: frees two to four neighbouring bands, fits them to what the rest leaves, rounds them in
 * stages, searches the steps around, and keeps the result if it is better. Never makes it worse.
 */
export function searchedSteps(task: FitTask, start: SteppedBank, rounds: number): SteppedBank {
  let best = start;
  if (start.bands.length === 0) return best;
  for (let round = 0; round < rounds; round++) {
    const trial = resettled(task, best);
    if (trial !== undefined && trial.sumOfSquares < best.sumOfSquares * (1 - LEAST_GAIN)) best = trial;
  }
  return best;
}

function resettled(task: FitTask, bank: SteppedBank): SteppedBank | undefined {
  const { random } = task;
  const size = bank.bands.length;
  const wanted = FEWEST_FREED + Math.floor(random() * (MOST_FREED - FEWEST_FREED + 1));
  const freed = Math.min(size, wanted);
  const byFrequency = [...bank.bands.keys()].sort(
    (a, b) => bank.bands[a]!.section.lnF - bank.bands[b]!.section.lnF || a - b,
  );
  const from = Math.floor(random() * (size - freed + 1));
  const indices = byFrequency.slice(from, from + freed);
  const base = residualWithout(task, bank, indices);
  const start = indices.map((index) => jittered(task, bank.bands[index]!.section));
  const fitted = freelyFitted(task, start, base);
  if (fitted.sumOfSquares > bank.sumOfSquares) return undefined;

  const rest = bank.bands.filter((_, index) => !indices.includes(index));
  let trial = steppedBank(task, roundedInStages(task, fitted.sections, base), base, rest);
  if (trial.sumOfSquares > bank.sumOfSquares * PROMISING) return trial;
  const width = Math.min(3, freed);
  for (let first = rest.length; first + width <= size; first++) {
    const window = Array.from({ length: width }, (_, w) => first + w);
    trial = bestNeighbour(task, trial, window) ?? trial;
  }
  return trial;
}

function jittered({ offer, random }: FitTask, section: Section): Section {
  const moved = {
    ...section,
    lnF: section.lnF + JITTER.lnF * normal(random),
    gainDb: section.gainDb * (1 + JITTER.gain * normal(random)),
    lnShape: section.lnShape + JITTER.lnShape * normal(random),
  };
  return insideBox(moved, offeredKind(offer, section).box);
}

function freelyFitted(
  task: FitTask,
  sections: readonly Section[],
  base: Float64Array,
): ReturnType<typeof fitSections> {
  const boxes = sections.map((section) => offeredKind(task.offer, section).box);
  const fitted = fitSections(task.axis, sections, boxes, base, FREED_FIT);
  task.count.iterations += fitted.iterations;
  return fitted;
}

const PLACES_TRIED = 4;

/** The bank with the most useful of some new bands, its two neighbours settled again with it. */
export function extendedSteps(task: FitTask, bank: SteppedBank): SteppedBank {
  let best: SteppedBank | undefined;
  for (let place = 0; place < PLACES_TRIED; place++) {
    const add = placedSection(task, bank.residual);
    const near = nearestSections(
      bank.bands.map(({ section }) => section),
      add.lnF,
      2,
    );
    const base = residualWithout(task, bank, near);
    const start = [...near.map((index) => bank.bands[index]!.section), add];
    const fitted = freelyFitted(task, start, base);
    const rest = bank.bands.filter((_, index) => !near.includes(index));
    const trial = steppedBank(task, roundedInStages(task, fitted.sections, base), base, rest);
    if (best === undefined || trial.sumOfSquares < best.sumOfSquares) best = trial;
  }
  return best!;
}
