import { msFromSamples } from "../base/units/index.ts";
import type { DelayAbility, NumberGrid } from "../model/index.ts";

/**
 * How far a delay may lie from the grid, in milliseconds: one nanosecond, so that whole samples written as
 * milliseconds with six decimals are recognized.
 */
export const DELAY_TOLERANCE_MS = 1e-6;

/**
 * The grid of a delay in milliseconds, whatever unit the profile states it in.
 *
 * @param sampleRateHz the rate that turns samples into milliseconds
 * @example
 * delayGridMs({ unit: "samples", grid: { kind: "step", min: 0, max: 48000, step: 1 } }, 48000).max; // 1000 ms
 */
export function delayGridMs(ability: DelayAbility, sampleRateHz: number): NumberGrid {
  const { grid } = ability;
  if (ability.unit === "ms") return grid;
  const toMs = (samples: number) => msFromSamples(samples, sampleRateHz);
  switch (grid.kind) {
    case "step":
      return { kind: "step", min: toMs(grid.min), max: toMs(grid.max), step: toMs(grid.step) };
    case "list":
      return { kind: "list", values: grid.values.map(toMs) };
    case "log":
      return {
        ...grid,
        min: toMs(grid.min),
        max: toMs(grid.max),
        referenceHz: toMs(grid.referenceHz),
      };
  }
}
