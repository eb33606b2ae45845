import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  amplitudeFromDb,
  coherentSumDb,
  dbFromAmplitude,
  dbFromPower,
  feetFromMetres,
  framesFromMs,
  incoherentSumDb,
  liesOnStep,
  metresFromFeet,
  metresFromMs,
  msFromFrames,
  msFromMetres,
  msFromSamples,
  nearestOnStep,
  octavesAbove,
  octavesBetween,
  phaseLagDeg,
  powerFromDb,
  samplesFromMs,
  speedOfSoundMps,
  wrapDeg,
  wrapRad,
} from "../../../src/base/units/index.ts";

/** A case of the reference files; which fields it has depends on its kind. */
interface Case {
  readonly id: string;
  readonly kind: string;
  readonly temperatureC: number;
  readonly speedMps: number;
  readonly distanceM: number;
  readonly distanceFt: number;
  readonly distanceMAt20C: number;
  readonly delayMs: number;
  readonly delayMsAfterRounding: number;
  readonly samples: number;
  readonly samplesNearest: number;
  readonly sampleRateHz: number;
  readonly frames: number;
  readonly framesPerSecond: number;
  readonly framesAt: Readonly<Record<string, number>>;
  readonly frequencyHz: number;
  readonly phaseLagDeg: number;
  readonly phaseLagWrappedDeg: number;
  readonly levelsDb: readonly number[];
  readonly expectedDb: number;
}

function cases(file: string, kind: string): readonly Case[] {
  const text = readFileSync(join(import.meta.dirname, "../../reference", file), "utf8");
  const found = (JSON.parse(text) as { cases: Case[] }).cases.filter((c) => c.kind === kind);
  if (found.length === 0) throw new Error(`no case of the kind ${kind} in ${file}`);
  return found;
}

/** Within 1e-9 relative, as the reference files ask. */
function expectRelative(value: number, expected: number): void {
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1e-12, Math.abs(expected)));
}

// Source: ISO 9613-1 (speed of sound); the rest by definition; tests/reference/delay-distance.json names the origins.
describe("delay, distance, samples, frames", () => {
  it.each(cases("delay-distance.json", "speed"))("$id", (c) => {
    expectRelative(speedOfSoundMps(c.temperatureC), c.speedMps);
  });

  it.each(cases("delay-distance.json", "distanceToDelay"))("$id", (c) => {
    const delayMs = msFromMetres(c.distanceM, c.temperatureC);
    expectRelative(delayMs, c.delayMs);
    const samples = samplesFromMs(delayMs, c.sampleRateHz);
    expectRelative(samples, c.samples);
    const nearest = nearestOnStep(samples, { min: 0, max: 1e6, step: 1 });
    expect(nearest).toBe(c.samplesNearest);
    expectRelative(msFromSamples(nearest, c.sampleRateHz), c.delayMsAfterRounding);
    for (const [rate, frames] of Object.entries<number>(c.framesAt)) {
      expectRelative(framesFromMs(delayMs, Number(rate)), frames);
    }
  });

  it.each(cases("delay-distance.json", "delayToOther"))("$id", (c) => {
    expectRelative(samplesFromMs(c.delayMs, c.sampleRateHz), c.samples);
    expect(Math.floor(samplesFromMs(c.delayMs, c.sampleRateHz) + 0.5)).toBe(c.samplesNearest);
    expectRelative(metresFromMs(c.delayMs, c.temperatureC), c.distanceM);
    expectRelative(feetFromMetres(metresFromMs(c.delayMs, c.temperatureC)), c.distanceFt);
    for (const [rate, frames] of Object.entries<number>(c.framesAt)) {
      expectRelative(framesFromMs(c.delayMs, Number(rate)), frames);
    }
  });

  it.each(cases("delay-distance.json", "framesToDelay"))("$id", (c) => {
    const delayMs = msFromFrames(c.frames, c.framesPerSecond);
    expectRelative(delayMs, c.delayMs);
    expectRelative(samplesFromMs(delayMs, c.sampleRateHz), c.samples);
    expectRelative(metresFromMs(delayMs), c.distanceMAt20C);
  });

  it.each(cases("delay-distance.json", "delayToPhase"))("$id", (c) => {
    const lag = phaseLagDeg(c.delayMs, c.frequencyHz);
    expectRelative(lag, c.phaseLagDeg);
    expectRelative(wrapDeg(lag), c.phaseLagWrappedDeg);
  });

  it("turns back what it turned", () => {
    const positive = fc.double({ min: 1e-3, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(positive, fc.double({ min: -40, max: 50, noNaN: true }), (x, temperatureC) => {
        expectRelative(metresFromMs(msFromMetres(x, temperatureC), temperatureC), x);
        expectRelative(msFromSamples(samplesFromMs(x, 48_000), 48_000), x);
        expectRelative(msFromFrames(framesFromMs(x, 24), 24), x);
        expectRelative(metresFromFeet(feetFromMetres(x)), x);
        expectRelative(octavesAbove(100, octavesBetween(100, x)), x);
      }),
    );
  });

  it("wraps angles", () => {
    expect([wrapDeg(180), wrapDeg(-180), wrapDeg(540), wrapDeg(10)]).toEqual([-180, -180, -180, 10]);
    expect(wrapRad(3 * Math.PI)).toBeCloseTo(-Math.PI, 12);
  });
});

describe("levels", () => {
  it.each(cases("levels.json", "incoherentSum"))("$id", (c) => {
    expect(incoherentSumDb(c.levelsDb)).toBeCloseTo(c.expectedDb, 7);
  });

  it("counts −3.01 dB for half the power and −6.02 dB for half the amplitude", () => {
    expect(dbFromPower(0.5)).toBeCloseTo(-3.010299957, 9);
    expect(dbFromAmplitude(-0.5)).toBeCloseTo(-6.020599913, 9);
    expect(coherentSumDb([0, 0])).toBeCloseTo(6.020599913, 9);
    expect(powerFromDb(dbFromPower(3))).toBeCloseTo(3, 12);
    expect(amplitudeFromDb(dbFromAmplitude(3))).toBeCloseTo(3, 12);
    expect(incoherentSumDb([])).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe("steps", () => {
  it("finds the nearest setting and keeps inside the range", () => {
    const range = { min: -12, max: 12, step: 0.1 };
    expect(nearestOnStep(0.26, range)).toBe(0.3);
    expect(nearestOnStep(-99, range)).toBe(-12);
    expect(nearestOnStep(99, range)).toBe(12);
    expect(nearestOnStep(0.26, { min: 0, max: 1 })).toBe(0.26);
    expect(nearestOnStep(9.9, { min: 0, max: 10, step: 4 })).toBe(8);
  });

  it("always lands on a step, at most half a step away", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -12, max: 12, noNaN: true }),
        fc.constantFrom(0.01, 0.1, 0.25, 0.5, 1),
        (value, step) => {
          const range = { min: -12, max: 12, step };
          const nearest = nearestOnStep(value, range);
          expect(liesOnStep(nearest, range)).toBe(true);
          expect(Math.abs(nearest - value)).toBeLessThanOrEqual(step / 2 + 1e-9);
        },
      ),
    );
  });

  it("knows what lies between steps or outside", () => {
    expect(liesOnStep(0.25, { min: -12, max: 12, step: 0.1 })).toBe(false);
    expect(liesOnStep(12.1, { min: -12, max: 12, step: 0.1 })).toBe(false);
    expect(liesOnStep(Number.NaN, { min: -12, max: 12 })).toBe(false);
    expect(liesOnStep(0.1 + 0.2, { min: 0, max: 1, step: 0.1 })).toBe(true);
  });
});
