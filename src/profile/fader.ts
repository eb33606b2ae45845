import type { FaderAbility, StepGrid } from "../model/index.ts";

/** The marks that the fader can stand at, as a grid. */
export function faderGrid(fader: FaderAbility): StepGrid {
  const marks = fader.marks.map((point) => point.mark);
  return { kind: "step", min: Math.min(...marks), max: Math.max(...marks), step: fader.step };
}

/**
 * Level in dB of a fader mark: straight lines between the marks of the profile; beyond the ends the end's level.
 */
export function faderLevelDb(fader: FaderAbility, mark: number): number {
  return interpolate(ascending(fader, "mark"), "mark", "levelDb", mark);
}

/** The fader mark that gives a level in dB, not rounded to the scale's step. Inverse of {@link faderLevelDb}. */
export function faderMarkAt(fader: FaderAbility, levelDb: number): number {
  return interpolate(ascending(fader, "levelDb"), "levelDb", "mark", levelDb);
}

type FaderPoint = FaderAbility["marks"][number];

function ascending(fader: FaderAbility, by: keyof FaderPoint): readonly FaderPoint[] {
  return [...fader.marks].sort((a, b) => a[by] - b[by]);
}

function interpolate(
  points: readonly FaderPoint[],
  from: keyof FaderPoint,
  to: keyof FaderPoint,
  value: number,
): number {
  const next = points.findIndex((point) => point[from] >= value);
  if (next < 0) return points.at(-1)![to];
  const upper = points[next]!;
  const lower = points[next - 1];
  if (lower === undefined || upper[from] === lower[from]) return upper[to];
  return lower[to] + ((upper[to] - lower[to]) * (value - lower[from])) / (upper[from] - lower[from]);
}
