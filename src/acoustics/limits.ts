import { BoothkeepError } from "../base/errors/index.ts";

/** A closed range of numbers. */
export interface NumberRange {
  readonly min: number;
  readonly max: number;
}

/**
 * What can be computed. These are limits of this code, wide enough for any unit; what a unit itself can be set to is for
 * its profile to say.
 */
export const COMPUTABLE = {
  sampleRateHz: { min: 32_000, max: 192_000 },
  /** Upper limit: below half the sample rate. */
  frequencyHz: { min: 0.1, max: 96_000 },
  q: { min: 1e-6, max: 1000 },
  slope: { min: 1e-6, max: 1000 },
  /** Gain of a filter or of a graphic band. */
  gainDb: { min: -60, max: 60 },
  /** Gain or level of a stage without a filter. */
  levelDb: { min: -200, max: 60 },
  delayMs: { min: 0, max: 10_000 },
  firTaps: { min: 1, max: 4096 },
} as const satisfies Record<string, NumberRange>;

export type ComputableNumber = keyof typeof COMPUTABLE;

/** Where a setting stands, as a JSON Pointer (RFC 6901) into what the caller handed over. */
export type SettingPlace = string;

/** Refuses a number that is NaN, infinite, or outside what can be computed. */
export function checkNumber(name: ComputableNumber, value: number, place: SettingPlace): void {
  const range = COMPUTABLE[name];
  if (typeof value === "number" && value >= range.min && value <= range.max) return;
  throw invalidSetting(`${name} is ${value}; it must lie from ${range.min} to ${range.max}.`, place, {
    value,
    ...range,
  });
}

/** Refuses a corner or center frequency that is not below half the sample rate. */
export function checkFilterFrequency(frequencyHz: number, sampleRateHz: number, place: SettingPlace): void {
  checkNumber("frequencyHz", frequencyHz, place);
  if (frequencyHz < sampleRateHz / 2) return;
  throw invalidSetting(
    `frequencyHz is ${frequencyHz}; it must lie below half the sample rate, ${sampleRateHz / 2} Hz.`,
    place,
    { value: frequencyHz, sampleRateHz },
  );
}

/** The one error of a setting that cannot be computed. */
export function invalidSetting(
  what: string,
  place: SettingPlace,
  data: Readonly<Record<string, unknown>> = {},
): BoothkeepError {
  return new BoothkeepError("acoustics.invalid-filter", what, {
    place: { pointer: place },
    next: "Correct this setting; nothing can be computed from it.",
    data,
  });
}

/** The one error of an id that points nowhere. */
export function unknownId(id: string, place: SettingPlace): BoothkeepError {
  return new BoothkeepError("acoustics.unknown-id", `Nothing has the id '${id}'.`, {
    place: { pointer: place, id },
    next: "Correct the id, or add what it should name.",
  });
}
