import { type Conversion, fieldAt } from "../../../model/index.ts";
import {
  type Habits,
  isLevel,
  isRatio,
  largest,
  levelScale,
  namedTime,
  type ObservedPlace,
  timeScale,
} from "./habits.ts";
import { wordsOf } from "./vocabulary.ts";

type Guess = { readonly as: Conversion; readonly words: string };

export function numericGuess(
  place: ObservedPlace,
  numbers: readonly number[],
  suffix: string,
  habits: Habits,
): Guess | undefined {
  const { field } = place;
  const unit = fieldAt(field)?.unit;
  if (/[oO]rder$/.test(field)) return orderGuess(numbers);
  if (isLevel(unit)) return levelGuess(place, numbers, suffix, habits);
  if (unit === "ms") return timeGuess(place, numbers, suffix, habits);
  if (unit === "Hz") return frequencyGuess(place, numbers);
  if (/(?:^|\.)q$/.test(field)) return widthGuess(place);
  if (unit === "m") return lengthGuess(place, numbers, suffix, habits);
  if (unit === "°C") return temperatureGuess(place, numbers);
  if (/\.position$/.test(field) && Math.min(...numbers) === 0)
    return { as: { kind: "number", offset: 1 }, words: "counted from zero" };
  return undefined;
}

/** No filter of these units has an order of 12, and none a slope of 4 dB per octave. */
function orderGuess(numbers: readonly number[]): Guess | undefined {
  const areSlopes = numbers.every((number) => number > 0 && number % 6 === 0) && largest(numbers) > 8;
  return areSlopes
    ? { as: { kind: "order", unit: "dB/octave" }, words: "multiples of 6: dB per octave" }
    : undefined;
}

function decimalsWritten({ raws }: ObservedPlace): number {
  return Math.max(...raws.map((raw) => /[.,](\d+)/.exec(raw)?.[1]?.length ?? 0));
}

const ATTENUATIONS = new Set(["attenuation", "atten", "att", "cut", "pad"]);

function levelGuess(
  place: ObservedPlace,
  numbers: readonly number[],
  suffix: string,
  habits: Habits,
): Guess | undefined {
  const isCut = wordsOf(place.name.slice(place.name.lastIndexOf("/"))).some((word) => ATTENUATIONS.has(word));
  if (isCut && Math.min(...numbers) >= 0 && largest(numbers) > 0)
    return { as: { kind: "number", factor: -1 }, words: "an attenuation, so less is louder" };
  if (isRatio(place, numbers)) {
    const isPercent = suffix === "%" || Math.max(...numbers) > 20;
    const decimals = decimalsWritten(place);
    const digits = decimals > 0 ? { round: 2 } : {};
    return isPercent
      ? { as: { kind: "level", unit: "percent", ...digits }, words: "a share in percent" }
      : { as: { kind: "level", unit: "ratio", ...digits }, words: "a ratio of amplitudes" };
  }
  if (suffix !== "" || !numbers.every(Number.isInteger)) return undefined;
  const isSound = fieldAt(place.field)?.unit === "dB SPL";
  const scale = isSound ? levelScale(numbers, "dB SPL") : habits.level;
  if (scale === "dB") return undefined;
  const words = `whole numbers up to ${largest(numbers)}: ${scale === "tenth-dB" ? "tenths" : "hundredths"} of a dB`;
  return { as: { kind: "level", unit: scale, decimals: 0 }, words };
}

/** No unit delays sound by so many ms. */
const LONGEST_MS = 3000;

function timeGuess(
  place: ObservedPlace,
  numbers: readonly number[],
  suffix: string,
  habits: Habits,
): Guess | undefined {
  const named = namedTime(place);
  if (named !== undefined) {
    const decimals = decimalsWritten(place);
    const isLength = (named === "m" || named === "ft") && decimals > 0;
    const digits = isLength ? { decimals, round: 2 } : {};
    return { as: { kind: "time", unit: named, ...digits }, words: `${named} by its name` };
  }
  if (suffix !== "") return undefined;
  if (largest(numbers) > LONGEST_MS)
    return {
      as: { kind: "time", unit: "us" },
      words: `up to ${largest(numbers)}: us, since ms would be seconds`,
    };
  if (numbers.some((number) => !Number.isInteger(number))) {
    const top = largest(numbers);
    if (habits.time === "us" && top > 100)
      return { as: { kind: "time", unit: "us" }, words: "us, as other times of the export" };
    return top > 0 && top < 0.5
      ? { as: { kind: "time", unit: "s" }, words: `all below ${top}: seconds` }
      : undefined;
  }
  const scale = spread(numbers) > 2 && largest(numbers) > 0 ? timeScale(numbers) : habits.time;
  if (scale === "ms") return undefined;
  return {
    as: { kind: "time", unit: scale, decimals: 0 },
    words: `whole numbers up to ${largest(numbers)}: ${scale}`,
  };
}

function frequencyGuess({ name }: ObservedPlace, numbers: readonly number[]): Guess | undefined {
  const isNamed = /khz/.test(wordsOf(name).join(" "));
  const top = largest(numbers);
  if (!isNamed && !(top <= 24) && !(numbers.every((number) => number === top) && top <= 192))
    return undefined;
  return { as: { kind: "frequency", unit: "kHz", round: 3 }, words: `none above ${top}: kHz` };
}

function widthGuess({ name }: ObservedPlace): Guess | undefined {
  if (!/octave|width|bw/.test(wordsOf(name).join(" "))) return undefined;
  return { as: { kind: "width", unit: "octaves", round: 2 }, words: "a bandwidth in octaves by its name" };
}

function lengthGuess(
  { name }: ObservedPlace,
  numbers: readonly number[],
  suffix: string,
  habits: Habits,
): Guess | undefined {
  const words = wordsOf(name.slice(name.lastIndexOf("/") + 1));
  const has = (...names: readonly string[]) =>
    words.some((word) => names.includes(word)) || names.includes(suffix);
  const of = (unit: "cm" | "mm" | "ft", why: string): Guess => ({
    as: { kind: "length", unit, ...(unit === "ft" ? { round: 2 } : {}) },
    words: `${unit} ${why}`,
  });
  if (has("feet", "ft")) return of("ft", "by its name");
  if (has("cm")) return of("cm", "by its name");
  if (has("mm")) return of("mm", "by its name");
  if (has("m", "metres", "meters") || !numbers.every(Number.isInteger) || habits.length === "m")
    return undefined;
  return of(habits.length, "since other lengths of the export would be longer than any room");
}

function temperatureGuess({ name }: ObservedPlace, numbers: readonly number[]): Guess | undefined {
  if (largest(numbers) <= 45 && !/(?:F|[Ff]ahrenheit)$/.test(name)) return undefined;
  const as: Conversion = { kind: "number", factor: 5 / 9, offset: -160 / 9, round: 2 };
  return { as, words: "degrees Fahrenheit, since no hall is that hot" };
}

function spread(numbers: readonly number[]): number {
  return new Set(numbers).size;
}
