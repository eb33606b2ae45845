import type { Conversion } from "../../../model/index.ts";
import { isSwitch, NO_WORDS, SWITCH_WORDS } from "./field-values.ts";
import type { ObservedPlace } from "./habits.ts";
import { meaningsOf } from "./known-words.ts";

/** How a value is turned into a field's, as far as names and values tell. */
export interface GuessedConversion {
  readonly as?: Conversion;
  readonly absent?: string[];
  /** What speaks for it; empty where the value is taken as it is. */
  readonly words: string;
}

export const AS_IT_IS: GuessedConversion = { words: "" };

const TURNED = new Set(["inverted", "180", "-", "neg", "negative", "minus", "true", "1", "inv", "reversed"]);

export function polarityChoice(raws: readonly string[]): GuessedConversion {
  const words = [...new Set(raws.map((raw) => raw.trim()))].filter((word) => word !== "" || raws.length < 3);
  if (words.every((word) => word === "normal" || word === "inverted")) return AS_IT_IS;
  const known = wordChoice("outputs[].polarity", words);
  if (known !== undefined) return known;
  const choices = words.map((word) => ({
    export: word,
    value: TURNED.has(word.toLowerCase()) ? "inverted" : "normal",
  }));
  return { as: { kind: "choice", choices }, words: "words for normal and inverted" };
}

/** Words that stand for those of a field; undefined where they are its own, or where some is not known. */
export function wordChoice(field: string, raws: readonly string[]): GuessedConversion | undefined {
  const absent = [...new Set(raws.map((raw) => raw.trim()))].filter((raw) => NO_WORDS.has(raw.toLowerCase()));
  const own = meaningsOf(field, raws);
  const meanings =
    own ??
    meaningsOf(
      field,
      raws.filter((raw) => !absent.includes(raw.trim())),
    );
  if (meanings === undefined) return undefined;
  if (own !== undefined && [...own].every(([word, value]) => word === value)) return undefined;
  const choices = [...meanings].map(([word, value]) => ({ export: word, value }));
  const [first] = choices;
  const words = `'${first!.export}' for ${first!.value}`;
  return { as: { kind: "choice", choices }, words, ...(own === undefined ? { absent } : {}) };
}

/** Names that say the opposite of the field: "audible" of mute, "bypass" of in use. */
const OPPOSITE = { mute: /audible|live|sound|active|on$/, enabled: /byp|mute|disab|off$/ } as const;

export function switchChoice({ field, name, raws }: ObservedPlace): GuessedConversion {
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

export function numberedConnector(field: string, raws: readonly string[]): GuessedConversion {
  if (!raws.every((raw) => /^\d{1,3}$/.test(raw.trim()))) return AS_IT_IS;
  const isZero = raws.some((raw) => Number(raw) === 0);
  const head = field.startsWith("outputs") ? "out" : "in";
  const as: Conversion = { kind: "template", text: `${head}-{}`, pad: 2, ...(isZero ? { offset: 1 } : {}) };
  return { as, words: `connectors by number${isZero ? ", from zero" : ""}` };
}
