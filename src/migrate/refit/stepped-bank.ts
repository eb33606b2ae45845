import { sumOfSquares } from "../../base/numeric/index.ts";
import type { OfferedKind } from "./band-offer.ts";
import { addInto, levelOf } from "./bank.ts";
import type { FitGround, FitTask } from "./fit-task.ts";
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

/** The band with these indices; equal bands share their section, and so its response is computed once. */
export function steppedBand(
  { settings }: FitTask,
  offered: OfferedKind,
  frequency: number,
  gain: number,
  shape: number,
): SteppedBand {
  const known = settings.get(offered)!;
  const key = (frequency * (offered.shape.last + 1) + shape) * (offered.gain.last + 1) + gain;
  let section = known.get(key);
  if (section === undefined) {
    section = {
      kind: offered.kind,
      bySlope: offered.bySlope,
      lnF: offered.frequency.parameter(frequency),
      gainDb: offered.gain.parameter(gain),
      lnShape: offered.shape.parameter(shape),
    };
    known.set(key, section);
  }
  return { offered, frequency, gain, shape, section };
}

/** No band at all. */
export function emptySteppedBank({ bare }: FitGround): SteppedBank {
  return { bands: [], residual: bare, sumOfSquares: sumOfSquares(bare) };
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
