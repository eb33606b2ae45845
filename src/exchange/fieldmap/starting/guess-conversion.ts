import type { Conversion } from "../../../model/index.ts";
import { fieldType } from "../field-type.ts";
import { NOTHING, realValues } from "./field-values.ts";
import {
  AS_IT_IS,
  type GuessedConversion,
  numberedConnector,
  polarityChoice,
  switchChoice,
  wordChoice,
} from "./guess-choice.ts";
import { numericGuess } from "./guess-unit.ts";
import { type Habits, numbersOf, type ObservedPlace } from "./habits.ts";

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

function conversionOf(place: ObservedPlace, habits: Habits): GuessedConversion {
  const { field, raws } = place;
  if (raws.length === 0) return AS_IT_IS;
  const type = fieldType(field);
  const choice = wordChoice(field, raws);
  if (choice !== undefined) return choice;
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

function commonSuffix(suffixes: readonly string[]): string {
  const [first = ""] = suffixes;
  return suffixes.every((suffix) => suffix === first) ? first : "";
}
