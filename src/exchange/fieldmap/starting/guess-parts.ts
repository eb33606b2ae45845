import type { ValueParts } from "../../../model/index.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { formParts, matchForm } from "../sources/line-forms.ts";
import { NOTHING } from "./field-values.ts";
import { meaningsOf } from "./known-words.ts";
import { unitsFor } from "./quantities.ts";

/** Forms by which the values of a place hold several things; undefined where each holds one. */
export function guessParts(at: string, raws: readonly string[]): ValueParts | undefined {
  const texts = [...new Set(raws.map((raw) => raw.trim()))];
  const told = texts.filter((text) => !NOTHING.has(text.toLowerCase()) && !isEmptyRange(text));
  if (told.length === 0) return undefined;
  const forms = sides(told) ?? sizes(told) ?? series(told) ?? familyAndOrder(told) ?? wayOf(told);
  if (forms === undefined) return undefined;
  const nothing = texts.filter((text) => !told.includes(text));
  const parts = { at, forms: [...forms] as [string, ...string[]] };
  return nothing.length === 0 ? parts : { ...parts, nothing: nothing as [string, ...string[]] };
}

const BETWEEN = /(?<! )(?: *\.\. *| +(?:-|–|to) +)/g;

/** A text of two ends with a word between them: the first place where that can be. */
function rangeIn(text: string) {
  for (const { 0: between, index } of text.matchAll(BETWEEN)) {
    const high = text.slice(index + between.length);
    if (index > 0 && high !== "") return { low: text.slice(0, index), between, high };
  }
  return undefined;
}

function isEmptyRange(text: string): boolean {
  const range = rangeIn(text);
  return range !== undefined && NOTHING.has(range.low) && NOTHING.has(range.high);
}

/** "40 Hz .. 500 Hz", "BW2 .. LR4", "40 Hz .. -": what is at the low end, and at the high one. */
function sides(texts: readonly string[]): readonly string[] | undefined {
  const forms = new Set<string>();
  for (const text of texts) {
    const range = rangeIn(text);
    const [a, b] = [sideOf(range?.low, "lowend"), sideOf(range?.high, "highend")];
    if (a === undefined || b === undefined) return undefined;
    forms.add(a + range!.between + b);
  }
  // Forms with more in them come first: "-" is a word too.
  return [...forms].sort((a, b) => b.split("{").length - a.split("{").length);
}

function sideOf(text: string | undefined, name: string): string | undefined {
  if (text === undefined) return undefined;
  if (NOTHING.has(text)) return text;
  const [, unit] = /^[-+]?\d+(?:[.,]\d+)?( ?[A-Za-z]*)$/.exec(text) ?? [];
  if (unit !== undefined) return `{${name}${/hz$/i.test(unit) ? "Hz" : ""}}${unit}`;
  return isFamilyAndOrder(text) ? `{${name}Family:letters}{${name}Order:number}` : undefined;
}

/** "21.4 x 14.2 x 7.1 m": length, width and height. */
function sizes(texts: readonly string[]): readonly string[] | undefined {
  const form = /^[\d.,]+ ?([x×*]) ?[\d.,]+ ?[x×*] ?[\d.,]+( ?[a-z]*)$/;
  const found = texts.map((text) => form.exec(text));
  const [first] = found;
  if (first == null || found.some((one) => one?.[1] !== first[1] || one?.[2] !== first[2])) return undefined;
  const between = texts[0]!.includes(` ${first[1]} `) ? ` ${first[1]} ` : first[1]!;
  return fitting(["{length}", "{width}", "{height}"].join(between) + first[2], texts);
}

const NAMES_BY_UNIT: readonly (readonly [unit: RegExp, names: readonly string[]])[] = [
  [/^dbfs$/i, ["threshold"]],
  [/^ms$/i, ["attack", "release"]],
  [/^db$/i, ["gain"]],
  [/^k?hz$/i, ["frequency"]],
  [/^oct\w*$/i, ["octaves"]],
];

/** "-6 dBFS, 20 ms, 200 ms": each number named by its unit. */
function series(texts: readonly string[]): readonly string[] | undefined {
  const [first = ""] = texts;
  const pieces = first.split(/(, ?|; ?| \/ )/);
  if (pieces.length < 3) return undefined;
  const taken = new Set<string>();
  const form = pieces.map((piece, i) => {
    if (i % 2 === 1) return piece;
    const [, unit] = /^[-+]?\d+(?:[.,]\d+)?( ?[A-Za-z]+)$/.exec(piece) ?? [];
    const names = NAMES_BY_UNIT.find(([own]) => unit !== undefined && own.test(unit.trim()))?.[1];
    const name = names?.find((one) => !taken.has(one));
    if (unit === undefined || name === undefined || unitsFor(unit) === undefined) return undefined;
    taken.add(name);
    return `{${name}}${unit}`;
  });
  return form.includes(undefined) ? undefined : fitting(form.join(""), texts);
}

const FAMILY = Object.keys(FIELD_WORDS).find((path) => path.endsWith("highPass.family"))!;

function isFamilyAndOrder(text: string): boolean {
  const [, family] = /^([A-Za-z]{2,})\d{1,2}$/.exec(text) ?? [];
  return family !== undefined && meaningsOf(FAMILY, [family]) !== undefined;
}

/** "LR24". */
function familyAndOrder(texts: readonly string[]): readonly string[] | undefined {
  return texts.every(isFamilyAndOrder) ? ["{family:letters}{order:number}"] : undefined;
}

/** "left/lf": a loudspeaker and its way, where all that have a sign in them end in one. */
function wayOf(texts: readonly string[]): readonly string[] | undefined {
  const sign = ["/", ":", "."].find((one) => texts.some((text) => text.includes(one)));
  if (sign === undefined) return undefined;
  const divided = texts.map((text) => text.split(sign)).filter((parts) => parts.length > 1);
  const ways = divided.map((parts) => parts[1]!);
  const areWays = divided.every((parts) => parts.length === 2 && /^[A-Za-z][\w-]*$/.test(parts[0]!));
  const known = meaningsOf("loudspeakers[].ways[].band", ways);
  return areWays && known !== undefined && known.size > 1 ? [`{loudspeaker}${sign}{way}`] : undefined;
}

function fitting(form: string, texts: readonly string[]): readonly string[] | undefined {
  const parts = formParts(form);
  return texts.every((text) => matchForm(text, parts) !== undefined) ? [form] : undefined;
}
