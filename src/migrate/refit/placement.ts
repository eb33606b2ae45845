import { insideBox, type OfferedKind } from "./band-offer.ts";
import { type FitTask, normal } from "./fit-task.ts";
import type { Section } from "./section-response.ts";

/** A stretch of one sign in a residual. */
interface Run {
  readonly from: number;
  /** One past the last row. */
  readonly to: number;
  /** Row of the largest value. */
  readonly at: number;
  readonly energy: number;
}

/** Share of placements that go to a random frequency instead of a peak. */
const ANYWHERE = 0.15;
/** Share of placements at an end of the axis that try a shelf, where shelves are offered. */
const SHELF_AT_END = 0.5;
const BUTTERWORTH_Q = Math.SQRT1_2;

/**
 * A new section against what a residual leaves: usually at one of its peaks, chosen by energy, as wide as the peak, with
 * some chance in place, height and width.
 */
export function placedSection({ axis, offer, random }: FitTask, residual: Float64Array): Section {
  const peaking = offer.find(({ kind }) => kind === "peaking");
  const shelves = offer.filter(({ kind }) => kind !== "peaking");
  const runs = runsOf(residual);
  const run = chosenByEnergy(runs, random());
  const shelf = shelves.find(({ kind }) =>
    kind === "low-shelf" ? run.from === 0 : run.to === residual.length,
  );
  if (shelf !== undefined && (peaking === undefined || random() < SHELF_AT_END)) {
    return shelfOver(run, shelf);
  }
  if (peaking === undefined) return shelfOver(run, shelves[Math.floor(random() * shelves.length)]!);
  if (random() < ANYWHERE) {
    const at = Math.floor(random() * residual.length);
    return peakAt({ from: at - 4, to: at + 4, at, energy: 0 }, 0, 1, peaking);
  }
  return peakAt(run, 0.03 * normal(random), 0.6 + 0.8 * random(), peaking);

  function peakAt({ from, to, at }: Run, shift: number, part: number, kind: OfferedKind): Section {
    const octaves = (octavesAt(at) * Math.max(to - from, 2) * Math.exp(0.7 * normal(random))) / 2;
    const q = 1 / (2 * Math.sinh((Math.LN2 / 2) * octaves));
    return newSection(kind, axis.lnF[at]! + shift, (-residual[at]! / weightOf(at)) * part, Math.log(q));
  }

  function shelfOver({ from, to, at }: Run, kind: OfferedKind): Section {
    const corner = kind.kind === "low-shelf" ? Math.min(to, residual.length - 1) : from;
    const lnShape = kind.bySlope ? 0 : Math.log(BUTTERWORTH_Q);
    return newSection(kind, axis.lnF[corner]! + 0.2 * normal(random), -residual[at]! / weightOf(at), lnShape);
  }

  function octavesAt(row: number): number {
    const next = Math.min(row + 1, residual.length - 1);
    return Math.abs(axis.lnF[next]! - axis.lnF[next - 1]!) / Math.LN2;
  }

  function weightOf(row: number): number {
    return Math.max(axis.scale[row]!, 1e-6);
  }
}

function newSection(
  { kind, bySlope, box }: OfferedKind,
  lnF: number,
  gainDb: number,
  lnShape: number,
): Section {
  return insideBox({ kind, bySlope, lnF, gainDb, lnShape }, box);
}

function runsOf(residual: Float64Array): readonly Run[] {
  const runs: Run[] = [];
  let from = 0;
  while (from < residual.length) {
    const sign = Math.sign(residual[from]!);
    let to = from;
    let at = from;
    let energy = 0;
    while (to < residual.length && Math.sign(residual[to]!) === sign) {
      energy += residual[to]! ** 2;
      if (Math.abs(residual[to]!) > Math.abs(residual[at]!)) at = to;
      to++;
    }
    runs.push({ from, to, at, energy });
    from = to;
  }
  return runs;
}

function chosenByEnergy(runs: readonly Run[], chance: number): Run {
  let left = chance * runs.reduce((sum, { energy }) => sum + energy, 0);
  for (const run of runs) {
    left -= run.energy;
    if (left <= 0) return run;
  }
  return runs.at(-1)!;
}
