import { type Conversion, fieldAt } from "../../model/index.ts";
import { fieldType } from "../field-type.ts";
import { isSwitch, NOTHING, realValues, SWITCH_WORDS } from "./field-values.ts";
import { wordsOf } from "./vocabulary.ts";

/** How a value is turned into a field's, as far as names and values tell. */
export interface GuessedConversion {
  readonly as?: Conversion;
  readonly absent?: string[];
  /** What speaks for it; empty where the value is taken as it is. */
  readonly words: string;
}

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

/** Proposes a conversion for a place. */
export function guessConversion(place: ObservedPlace, habits: Habits): GuessedConversion {
  if (/polarity$/.test(place.field)) return polarityChoice(place.raws);
  const absent = [...new Set(place.raws.map((raw) => raw.trim()))].filter((raw) =>
    NOTHING.has(raw.toLowerCase()),
  );
  const { absent: alsoAbsent = [], ...guess } = conversionOf(
    { ...place, raws: realValues(place.raws) },
    habits,
  );
  const all = [...absent, ...alsoAbsent];
  return { ...guess, ...(all.length > 0 ? { absent: all } : {}) };
}

const AS_IT_IS: GuessedConversion = { words: "" };

function conversionOf(place: ObservedPlace, habits: Habits): GuessedConversion {
  const { field, raws } = place;
  if (raws.length === 0) return AS_IT_IS;
  const type = fieldType(field);
  if (type === "boolean") return switchChoice(place);
  if (type === "text") return /connectorId$/.test(field) ? numberedConnector(field, raws) : AS_IT_IS;
  const found = numbersOf(raws, habits.decimal);
  if (found.length === 0) return AS_IT_IS;
  const suffix = commonSuffix(found.map((number) => number.suffix));
  const plain = suffix === "" ? {} : { suffix };
  const guess = numericGuess(
    place,
    found.map(({ value }) => value),
    suffix,
    habits,
  );
  if (guess === undefined)
    return suffix === "" ? AS_IT_IS : { as: { kind: "number", ...plain }, words: `with '${suffix}'` };
  return { as: { ...guess.as, ...plain } as Conversion, words: guess.words };
}

type Guess = { readonly as: Conversion; readonly words: string };

function numericGuess(
  place: ObservedPlace,
  numbers: readonly number[],
  suffix: string,
  habits: Habits,
): Guess | undefined {
  const { field } = place;
  const unit = fieldAt(field)?.unit;
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

function isLevel(unit: string | undefined): boolean {
  return unit === "dB" || unit === "dBFS" || unit === "dB SPL";
}

const RATIO_WORDS = new Set(["times", "ratio", "share", "linear", "percent"]);

function isRatio({ name, raws }: ObservedPlace, numbers: readonly number[]): boolean {
  if (raws.some((raw) => /d\s*b\s*$/i.test(raw))) return false;
  const isNamed = wordsOf(name).some((word) => RATIO_WORDS.has(word));
  return isNamed && numbers.every((number) => number > 0);
}

function levelGuess(
  place: ObservedPlace,
  numbers: readonly number[],
  suffix: string,
  habits: Habits,
): Guess | undefined {
  if (isRatio(place, numbers)) {
    const isPercent = suffix === "%" || Math.max(...numbers) > 20;
    const decimals = Math.max(...place.raws.map((raw) => /[.,](\d+)/.exec(raw)?.[1]?.length ?? 0));
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

/** Levels of single settings lie mostly below 12 dB, those that are measured below 110: common practice, no source. */
function levelScale(numbers: readonly number[], unit: string | undefined): Habits["level"] {
  if (!numbers.every(Number.isInteger)) return "dB";
  const [tenths, hundredths] = unit === "dB SPL" ? [300, 3000] : [30, 300];
  const top = largest(numbers);
  if (top > hundredths) return "hundredth-dB";
  return top > tenths ? "tenth-dB" : "dB";
}

function namedTime({
  name,
  raws,
}: ObservedPlace): "us" | "samples" | "frames" | "s" | "m" | "ft" | undefined {
  const words = wordsOf(name.slice(name.lastIndexOf("/") + 1));
  const has = (...names: readonly string[]) => words.some((word) => names.includes(word));
  if (has("us", "micros", "microseconds")) return "us";
  if (has("sample", "samples", "smp")) return "samples";
  if (has("frame", "frames") || words.some((word) => word.endsWith("frames"))) return "frames";
  if (has("sec", "seconds")) return "s";
  if (has("feet", "ft")) return "ft";
  if (has("metres", "meters", "m") || raws.every((raw) => /\d\s*m$/.test(raw))) return "m";
  return undefined;
}

function timeGuess(
  place: ObservedPlace,
  numbers: readonly number[],
  suffix: string,
  habits: Habits,
): Guess | undefined {
  const named = namedTime(place);
  if (named !== undefined) return { as: { kind: "time", unit: named }, words: `${named} by its name` };
  if (suffix !== "") return undefined;
  if (numbers.some((number) => !Number.isInteger(number))) {
    const top = largest(numbers);
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

function timeScale(numbers: readonly number[]): Habits["time"] {
  if (!numbers.every(Number.isInteger)) return "ms";
  const top = largest(numbers);
  if (top > 1000 && numbers.some((number) => number % 10 !== 0) === false) return "us";
  if (top > 3000) return "us";
  return top > 200 && numbers.some((number) => number % 5 !== 0) ? "samples" : "ms";
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

/** No room measures 150 m. */
function lengthScale(numbers: readonly number[]): Habits["length"] {
  const top = largest(numbers);
  if (top > 6000) return "mm";
  return top > 150 ? "cm" : "m";
}

function temperatureGuess({ name }: ObservedPlace, numbers: readonly number[]): Guess | undefined {
  if (largest(numbers) <= 45 && !/(?:F|[Ff]ahrenheit)$/.test(name)) return undefined;
  const as: Conversion = { kind: "number", factor: 5 / 9, offset: -160 / 9, round: 2 };
  return { as, words: "degrees Fahrenheit, since no hall is that hot" };
}

const TURNED = new Set(["inverted", "180", "-", "neg", "negative", "minus", "true", "1", "inv", "reversed"]);

function polarityChoice(raws: readonly string[]): GuessedConversion {
  const words = [...new Set(raws.map((raw) => raw.trim()))];
  if (words.every((word) => word === "normal" || word === "inverted")) return AS_IT_IS;
  const choices = words.map((word) => ({
    export: word,
    value: TURNED.has(word.toLowerCase()) ? "inverted" : "normal",
  }));
  return { as: { kind: "choice", choices }, words: "words for normal and inverted" };
}

/** Names that say the opposite of the field: "audible" of mute, "bypass" of in use. */
const OPPOSITE = { mute: /audible|live|sound|active|on$/, enabled: /byp|mute|disab|off$/ } as const;

function switchChoice({ field, name, raws }: ObservedPlace): GuessedConversion {
  const last = name.slice(name.lastIndexOf("/") + 1).toLowerCase();
  const isMute = /mute$/.test(field);
  const isOpposite = OPPOSITE[isMute ? "mute" : "enabled"].test(last);
  const words = [...new Set(raws.map((raw) => raw.trim()))];
  const isUsual = /(?:filters|parametric)\[\]\.enabled$|graphic\.enabled$/.test(field);
  if (!isOpposite && !isUsual && words.every((word) => word === "true" || word === "false")) return AS_IT_IS;
  const pair = SWITCH_WORDS.find((both) => words.every((word) => both.includes(word.toLowerCase())));
  if (pair === undefined || !isSwitch(words)) {
    // One word, and nothing where it does not hold: "BYP".
    const value = isMute ? !isOpposite : !/byp|off|out/.test(words[0]!.toLowerCase());
    return {
      as: { kind: "choice", choices: [{ export: words[0]!, value }] },
      words: `'${words[0]}' or nothing`,
    };
  }
  const inCase = (word: string) => words.find((own) => own.toLowerCase() === word) ?? word;
  const choices = pair.map((word, i) => ({ export: inCase(word), value: (i === 0) !== isOpposite }));
  // A configuration says nothing of a filter that is in use, only of one that is not.
  if (isUsual) {
    const [idle, usual] = [choices.filter(({ value }) => !value), choices.filter(({ value }) => value)];
    const as: Conversion = { kind: "choice", choices: idle };
    return {
      as,
      absent: usual.map((one) => one.export),
      words: `not in use where it is '${idle[0]!.export}'`,
    };
  }
  return {
    as: { kind: "choice", choices },
    words: isOpposite ? "a switch whose name says the opposite" : "a switch",
  };
}

function numberedConnector(field: string, raws: readonly string[]): GuessedConversion {
  if (!raws.every((raw) => /^\d{1,3}$/.test(raw.trim()))) return AS_IT_IS;
  const isZero = raws.some((raw) => Number(raw) === 0);
  const head = field.startsWith("outputs") ? "out" : "in";
  const as: Conversion = { kind: "template", text: `${head}-{}`, pad: 2, ...(isZero ? { offset: 1 } : {}) };
  return { as, words: `connectors by number${isZero ? ", from zero" : ""}` };
}

interface FoundNumber {
  readonly value: number;
  readonly suffix: string;
}

export function numbersOf(raws: readonly string[], decimal: "." | ","): readonly FoundNumber[] {
  return raws.flatMap((raw) => {
    const match = /^([+-]?[\d.,]+)(\s*[^\d\s]*)$/.exec(raw.trim());
    const value = Number((decimal === "," ? match?.[1]?.replace(",", ".") : match?.[1]) ?? Number.NaN);
    return match === null || Number.isNaN(value) ? [] : [{ value, suffix: match[2] ?? "" }];
  });
}

function commonSuffix(suffixes: readonly string[]): string {
  const [first = ""] = suffixes;
  return suffixes.every((suffix) => suffix === first) ? first : "";
}

function largest(numbers: readonly number[]): number {
  return Math.max(...numbers.map(Math.abs));
}

function spread(numbers: readonly number[]): number {
  return new Set(numbers).size;
}
