import { insideBox, offeredKind } from "./band-offer.ts";
import { addInto, levelOf, nearestSections } from "./bank.ts";
import { type FitTask, normal } from "./fit-task.ts";
import { settledSteps } from "./nearest-steps.ts";
import { bestNeighbour } from "./neighbouring-steps.ts";
import { placedSection } from "./placement.ts";
import { fitSections } from "./section-fit.ts";
import type { Section } from "./section-response.ts";
import { residualWithout, type SteppedBank } from "./stepped-bank.ts";

const FEWEST_FREED = 2;
const MOST_FREED = 7;
const FREED_FIT = { maxIterations: 8, relativeDecrease: 1e-4 };
/** Spread of the start around the present values: ln f, part of the gain, ln shape. */
const JITTER = { lnF: 0.03, gain: 0.1, lnShape: 0.15 };
/** Share of rounds that put one of the freed bands where something is left over. */
const REPLACED = 0.15;
const BEAM = 8;
const LEAST_GAIN = 1e-9;
/** Mean of the accepted worsening, as a part of the sum (Metropolis rule). */
const TEMPERATURE = 0.01;
/** What leaves more than this part too much before it is on the steps is not put there. */
const HOPELESS = 0.03;
/** Bands at one place are this far apart in half widths; and the spread of the logarithm of distances. */
const LEAST_APART = 0.2;
const SPREAD = 0.35;

/**
 * Makes a stepped bank better: frees a few bands that overlap, fits them to what the rest leaves, puts them on the nearest
 * steps, keeps the result if it is better (or now and then a little worse), and repeats. Never gives a worse bank.
 */
export function searchedSteps(task: FitTask, start: SteppedBank, rounds: number): SteppedBank {
  let best = start;
  let current = start;
  if (start.bands.length === 0) return best;
  for (let round = 0; round < rounds; round++) {
    const trial = resettled(task, current);
    if (trial === undefined) continue;
    const limit = 1 - TEMPERATURE * Math.log(1 - task.random());
    if (trial.sumOfSquares < current.sumOfSquares * limit) current = trial;
    if (trial.sumOfSquares < best.sumOfSquares * (1 - LEAST_GAIN)) best = trial;
  }
  return best;
}

function resettled(task: FitTask, bank: SteppedBank): SteppedBank | undefined {
  const { random } = task;
  const size = bank.bands.length;
  const freed = Math.min(size, FEWEST_FREED + Math.floor(random() * (MOST_FREED - FEWEST_FREED + 1)));
  const indices = overlapping(task, bank, freed);
  const base = residualWithout(task, bank, indices);
  const kept = indices.map((index) => jittered(task, bank.bands[index]!.section));
  const start = random() < REPLACED ? withOneReplaced(task, kept, base) : kept;
  const fitted = freelyFitted(task, start, base);
  if (fitted.sumOfSquares > bank.sumOfSquares * (1 + HOPELESS)) return undefined;
  return withRest(bank, indices, settledSteps(task, fitted.sections, base, BEAM));
}

/** A band and those that overlap with it most, with some chance: wide bands have neighbours far away. */
function overlapping({ random }: FitTask, { bands }: SteppedBank, count: number): readonly number[] {
  const center = bands[Math.floor(random() * bands.length)]!.section;
  const distances = bands.map(({ section }) => {
    const apart = Math.abs(section.lnF - center.lnF) / (halfWidth(section) + halfWidth(center));
    return section === center ? -1 : (apart + LEAST_APART) * Math.exp(SPREAD * normal(random));
  });
  return [...bands.keys()].sort((a, b) => distances[a]! - distances[b]! || a - b).slice(0, count);
}

/** Half the bandwidth in ln f. */
function halfWidth({ lnShape }: Section): number {
  return Math.asinh(0.5 / Math.exp(lnShape));
}

function withOneReplaced(
  task: FitTask,
  sections: readonly Section[],
  base: Float64Array,
): readonly Section[] {
  const away = Math.floor(task.random() * sections.length);
  const rest = sections.filter((_, index) => index !== away);
  const left = base.slice();
  for (const section of rest) addInto(left, levelOf(task, section), 1);
  return [...rest, placedSection(task, left)];
}

/** The bank with some of its bands exchanged for others that were settled over the rest of it. */
function withRest(bank: SteppedBank, exchanged: readonly number[], settled: SteppedBank): SteppedBank {
  const rest = bank.bands.filter((_, index) => !exchanged.includes(index));
  return { ...settled, bands: [...rest, ...settled.bands] };
}

function byFrequency({ bands }: SteppedBank): readonly number[] {
  return [...bands.keys()].sort((a, b) => bands[a]!.section.lnF - bands[b]!.section.lnF || a - b);
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
  return fitSections(task, sections, boxes, base, FREED_FIT);
}

const PLACES_TRIED = 8;

/** The bank with the most useful of some new bands, its neighbours settled again with it. */
export function extendedSteps(task: FitTask, bank: SteppedBank): SteppedBank {
  let best: SteppedBank | undefined;
  for (let place = 0; place < PLACES_TRIED; place++) {
    const add = placedSection(task, bank.residual);
    const near = nearestSections(
      bank.bands.map(({ section }) => section),
      add.lnF,
      1 + Math.floor(3 * task.random()),
    );
    const base = residualWithout(task, bank, near);
    const start = [...near.map((index) => bank.bands[index]!.section), add];
    const fitted = freelyFitted(task, start, base);
    const trial = withRest(bank, near, settledSteps(task, fitted.sections, base, BEAM));
    if (best === undefined || trial.sumOfSquares < best.sumOfSquares) best = trial;
  }
  return best!;
}

const WINDOW = 3;

/** The bank after every group of neighbouring bands has been moved by single steps as long as that helps. */
export function descendedSteps(task: FitTask, start: SteppedBank): SteppedBank {
  let best = start;
  const width = Math.min(WINDOW, start.bands.length);
  for (let from = 0; width > 0 && from + width <= best.bands.length; from++) {
    const window = byFrequency(best).slice(from, from + width);
    best = bestNeighbour(task, best, window) ?? best;
  }
  return best;
}
