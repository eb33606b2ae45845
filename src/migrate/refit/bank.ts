import { sumOfSquares } from "../../base/numeric/index.ts";
import { boxesOf } from "./band-offer.ts";
import type { FitGround, FitTask } from "./fit-task.ts";
import { fitSections } from "./section-fit.ts";
import { type Section, sectionLevel } from "./section-response.ts";

/** Sections without regard to a unit's steps, and what they leave. */
export interface Bank {
  readonly sections: readonly Section[];
  /** Response minus curve, scaled. */
  readonly residual: Float64Array;
  readonly sumOfSquares: number;
}

/** No section at all. */
export function emptyBank({ bare }: FitGround): Bank {
  return { sections: [], residual: bare, sumOfSquares: sumOfSquares(bare) };
}

/** Stop of a search's fits: an iteration that gains less than this part is the last. */
const SEARCH_STOP = 1e-5;
const FINAL_STOP = 1e-7;

/** All sections fitted together. */
export function fittedBank(
  task: FitGround,
  sections: readonly Section[],
  maxIterations: number,
  relativeDecrease = SEARCH_STOP,
): Bank {
  return fitOver(task, sections, task.bare, [], { maxIterations, relativeDecrease });
}

/** All sections fitted together, to the end. */
export function polishedBank(task: FitGround, { sections }: Bank): Bank {
  return fittedBank(task, sections, 20, FINAL_STOP);
}

/** The bank after one section is removed and its nearest neighbours are fitted again; everything else stays. */
export function withoutSection(
  task: FitGround,
  { sections, residual }: Bank,
  away: number,
  { neighbours, maxIterations }: { readonly neighbours: number; readonly maxIterations: number },
): Bank {
  const near = nearestSections(sections, sections[away]!.lnF, neighbours, away);
  const base = residual.slice();
  for (const index of [away, ...near]) addInto(base, levelOf(task, sections[index]!), -1);
  const free = near.map((index) => sections[index]!);
  const rest = sections.filter((_, index) => index !== away && !near.includes(index));
  return fitOver(task, free, base, rest, { maxIterations, relativeDecrease: SEARCH_STOP });
}

/** Some of the sections fitted again; everything else stays. The fitted ones come last. */
export function partlyFitted(
  task: FitTask,
  { sections, residual }: Bank,
  indices: readonly number[],
  maxIterations: number,
  relativeDecrease = SEARCH_STOP,
): Bank {
  const base = residual.slice();
  for (const index of indices) addInto(base, levelOf(task, sections[index]!), -1);
  const free = indices.map((index) => sections[index]!);
  const rest = sections.filter((_, index) => !indices.includes(index));
  return fitOver(task, free, base, rest, { maxIterations, relativeDecrease });
}

/** The bank and one more section, nothing fitted; the new one is the last. */
export function withSection(task: FitTask, { sections, residual }: Bank, section: Section): Bank {
  const left = residual.slice();
  addInto(left, levelOf(task, section), 1);
  return { sections: [...sections, section], residual: left, sumOfSquares: sumOfSquares(left) };
}

function fitOver(
  task: FitGround,
  free: readonly Section[],
  base: Float64Array,
  rest: readonly Section[],
  budget: { readonly maxIterations: number; readonly relativeDecrease: number },
): Bank {
  const fitted = fitSections(task, free, boxesOf(task.offer, free), base, budget);
  return {
    sections: [...rest, ...fitted.sections],
    residual: fitted.residual,
    sumOfSquares: fitted.sumOfSquares,
  };
}

/** Indices of the sections nearest to a frequency, nearest first. */
export function nearestSections(
  sections: readonly { readonly lnF: number }[],
  lnF: number,
  count: number,
  except?: number,
): readonly number[] {
  return [...sections.keys()]
    .filter((index) => index !== except)
    .sort((a, b) => Math.abs(sections[a]!.lnF - lnF) - Math.abs(sections[b]!.lnF - lnF) || a - b)
    .slice(0, count);
}

/** The sum of squares if one section were taken away and nothing else changed. */
export function sumWithout(task: FitGround, { residual, sections }: Bank, index: number): number {
  const level = levelOf(task, sections[index]!);
  let sum = 0;
  for (let i = 0; i < level.length; i++) sum += (residual[i]! - level[i]!) ** 2;
  return sum;
}

/** The scaled response of a section, kept as long as the section is. */
export function levelOf({ axis, levels }: FitGround, section: Section): Float64Array {
  let level = levels.get(section);
  if (level === undefined) {
    level = sectionLevel(axis, section);
    levels.set(section, level);
  }
  return level;
}

/** target += factor · vector. */
export function addInto(target: Float64Array, vector: Float64Array, factor: number): void {
  for (let i = 0; i < target.length; i++) target[i]! += factor * vector[i]!;
}
