import type { ListGrid, LogGrid, StepGrid } from "../../../src/model/index.ts";

/** Equal steps from `min` to `max`. */
export function steps(min: number, max: number, step: number): StepGrid {
  return { kind: "step", min, max, step };
}

/** Just these values. */
export function list(...values: readonly number[]): ListGrid {
  return { kind: "list", values };
}

/** Equal ratios around 1 kHz, in hertz. */
export function octaveFractions(min: number, max: number, perOctave: number): LogGrid {
  return { kind: "log", min, max, referenceHz: 1000, perOctave };
}
