import { fieldAt } from "../../../model/index.ts";
import { unitInName, writtenUnit } from "./quantities.ts";
import { wordsOf } from "./vocabulary.ts";

/** The values of one place of an export, over all items. */
export interface ObservedPlace {
  /** The field for which they may be. */
  readonly field: string;
  /** The name of the place. */
  readonly name: string;
  readonly raws: readonly string[];
}

/** Scales of whole numbers, as the whole export seems to use them: tenths of a dB, microseconds. */
export interface Habits {
  readonly level: "dB" | "tenth-dB" | "hundredth-dB";
  readonly time: "ms" | "us" | "samples";
  readonly length: "m" | "cm" | "mm";
  readonly decimal: "." | ",";
}

/** Whole numbers that cannot be dB or ms tell the habit of an export; single ones follow it. */
export function habitsOf(places: readonly ObservedPlace[], decimal: "." | ","): Habits {
  const level = { dB: 0, "tenth-dB": 0, "hundredth-dB": 0 };
  const time = { ms: 0, us: 0, samples: 0 };
  const length = { m: 0, cm: 0, mm: 0 };
  for (const place of places) {
    const numbers = numbersOf(place.raws, decimal).map(({ value }) => value);
    if (numbers.length === 0) continue;
    const unit = fieldAt(place.field)?.unit;
    if (unit === "m" && lengthScale(numbers) !== "m") length[lengthScale(numbers)] += 1;
    const isWhole = numbers.every(Number.isInteger);
    const [levels, times] = [levelScale(numbers, unit), timeScale(numbers)];
    // Small whole numbers may be anything; they follow the others.
    if (isLevel(unit) && !isRatio(place, numbers) && (levels !== "dB" || !isWhole))
      level[levels] += numbers.length;
    if (unit === "ms" && namedTime(place) === undefined && (times !== "ms" || !isWhole))
      time[times] += numbers.length;
  }
  return { level: most(level), time: most(time), length: most(length), decimal };
}

function most<T extends string>(counts: Readonly<Record<T, number>>): T {
  const entries = Object.entries(counts) as [T, number][];
  return entries.reduce((best, entry) => (entry[1] > best[1] ? entry : best))[0];
}

export function isLevel(unit: string | undefined): boolean {
  return unit === "dB" || unit === "dBFS" || unit === "dB SPL";
}

const RATIO_WORDS = new Set(["times", "ratio", "share", "linear", "percent"]);

export function isRatio({ name, raws }: ObservedPlace, numbers: readonly number[]): boolean {
  if (raws.some((raw) => /d\s*b\s*$/i.test(raw))) return false;
  const isNamed = wordsOf(name).some((word) => RATIO_WORDS.has(word));
  // Never below zero, never far above one, and finer than any level in dB: 0.841395.
  const isFine = numbers.length > 2 && raws.some((raw) => /[.,]\d{4}/.test(raw));
  return numbers.every((number) => number > 0) && (isNamed || (isFine && largest(numbers) <= 4));
}

/** Levels of single settings lie mostly below 12 dB, those that are measured below 110: common practice, no source. */
export function levelScale(numbers: readonly number[], unit: string | undefined): Habits["level"] {
  if (!numbers.every(Number.isInteger)) return "dB";
  const [tenths, hundredths] = unit === "dB SPL" ? [300, 3000] : [30, 300];
  const top = largest(numbers);
  if (top > hundredths) return "hundredth-dB";
  return top > tenths ? "tenth-dB" : "dB";
}

const TIMES: readonly (readonly [
  written: RegExp,
  unit: "ms" | "us" | "samples" | "frames" | "s" | "m" | "ft",
])[] = [
  [/^(?:ms|msec)$/i, "ms"],
  [/^(?:us|µs|usec)$/i, "us"],
  [/^(?:smp|sa|samples?)$/i, "samples"],
  [/^(?:fr|frames?)$/i, "frames"],
  [/^(?:s|sec)$/i, "s"],
  [/^(?:m|metres?|meters?)$/i, "m"],
  [/^(?:ft|feet)$/i, "ft"],
];

export function namedTime({
  name,
  raws,
}: ObservedPlace): "us" | "samples" | "frames" | "s" | "m" | "ft" | undefined {
  const words = wordsOf(name.slice(name.lastIndexOf("/") + 1));
  const has = (...names: readonly string[]) => words.some((word) => names.includes(word));
  const unit = writtenUnit(raws) ?? unitInName(name);
  const written = unit === undefined ? undefined : TIMES.find(([word]) => word.test(unit))?.[1];
  if (written !== undefined && written !== "ms") return written;
  if (has("us", "micros", "microseconds")) return "us";
  if (has("sample", "samples", "smp")) return "samples";
  if (has("frame", "frames") || words.some((word) => word.endsWith("frames"))) return "frames";
  if (has("sec", "seconds")) return "s";
  if (has("feet", "ft")) return "ft";
  if (has("metres", "meters", "m") || raws.every((raw) => /\d\s*m$/.test(raw))) return "m";
  return undefined;
}

export function timeScale(numbers: readonly number[]): Habits["time"] {
  if (!numbers.every(Number.isInteger)) return "ms";
  const top = largest(numbers);
  if (top > 1000 && numbers.some((number) => number % 10 !== 0) === false) return "us";
  if (top > 3000) return "us";
  return top > 200 && numbers.some((number) => number % 5 !== 0) ? "samples" : "ms";
}

/** No room measures 150 m. */
export function lengthScale(numbers: readonly number[]): Habits["length"] {
  const top = largest(numbers);
  if (top > 6000) return "mm";
  return top > 150 ? "cm" : "m";
}

interface FoundNumber {
  readonly value: number;
  readonly suffix: string;
}

export function numbersOf(raws: readonly string[], decimal: "." | ","): readonly FoundNumber[] {
  return raws.flatMap((raw) => {
    const match = /^([+-]?[\d.,]+)(?![\d.,])(\s*[^\d\s]*)$/.exec(raw.trim());
    const value = Number((decimal === "," ? match?.[1]?.replace(",", ".") : match?.[1]) ?? Number.NaN);
    return match === null || Number.isNaN(value) ? [] : [{ value, suffix: match[2] ?? "" }];
  });
}

export function largest(numbers: readonly number[]): number {
  return Math.max(...numbers.map(Math.abs));
}
