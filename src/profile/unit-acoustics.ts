import type { UnitAcoustics } from "../acoustics/index.ts";
import { msFromSamples } from "../base/units/index.ts";
import type { GraphicLayout, UnitProfile } from "../model/index.ts";

/** {@link UnitAcoustics} of which the latency is known. */
export interface KnownUnitAcoustics extends UnitAcoustics {
  /** Time from input to output in ms with all delays at 0. */
  readonly latencyMs: number;
}

/** What computing responses needs to know of a unit. */
export function unitAcoustics(profile: UnitProfile, sampleRateHz: number): KnownUnitAcoustics {
  const latencyMs = unitLatencyMs(profile, sampleRateHz);
  const graphicQ = profile.equalizations.graphic?.q;
  return graphicQ === undefined ? { latencyMs } : { graphicQ, latencyMs };
}

/** Time from input to output with all delays at 0, in milliseconds: the fixed part and the part that counts in samples. */
export function unitLatencyMs(profile: UnitProfile, sampleRateHz: number): number {
  return profile.latency.ms + msFromSamples(profile.latency.samples, sampleRateHz);
}

/** How many bands a graphic layout has. */
export const GRAPHIC_BANDS: Readonly<Record<GraphicLayout, number>> = {
  "third-octave-27": 27,
  "third-octave-31": 31,
  "two-thirds-octave-15": 15,
  "octave-10": 10,
};
