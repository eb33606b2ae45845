import type { LinePattern } from "../../../model/index.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { SWITCH_WORDS } from "./field-values.ts";
import { type Line, splitColumns, type Word } from "./split-columns.ts";
import { isKnownWord } from "./vocabulary.ts";

/** As many forms as a map may have. */
const MOST_FORMS = 400;

/**
 * Forms of lines by what lines have in common: their first word, how many words they have, which of them are in quotes, and
 * which are always the same. Words that tell lines apart become parts of the place.
 */
export function guessForms(texts: readonly string[]): [LinePattern, ...LinePattern[]] {
  const lines = texts.map(wordsIn).filter((line) => line.length > 0);
  const heads = groupBy(lines, (line) => line[0]!.text);
  const keysOfHeads = new Map(
    [...heads].map(([head, own]) => [head, new Set(own.map((line) => line[1]?.text))]),
  );
  const names = new Map<string, Set<string>>();
  const places = new Set<string>();
  const forms = [...heads].flatMap(([head, own]) => {
    const keywords = keywordsOf(own);
    const groups = groupBy(
      own,
      (line) => `${keywords.has(line[1]?.text ?? "") ? line[1]!.text : ""} ${formId(line)}`,
    );
    return [...groups.values()].flatMap((group) =>
      byKeyword(group).map((part) => {
        const keyword = keywords.has(part[0]![1]?.text ?? "");
        const outer = outerHead(head, part, { heads, keysOfHeads, keyword });
        return formOf(part, { keyword, alone: own.length === 1, outer, names, places });
      }),
    );
  });
  const some = forms.slice(0, MOST_FORMS);
  return some.length === 0
    ? [{ form: "{word} {rest:rest}", at: "/line/-" }]
    : (some as [LinePattern, ...LinePattern[]]);
}

function wordsIn(line: string): Line {
  return [...line.trim().matchAll(/(?:([A-Za-z][\w-]*)=)?"([^"]*)"|(\S+)/g)].flatMap(
    ([, name, quoted, bare]) => {
      const word = {
        text: quoted ?? bare ?? "",
        quoted: quoted !== undefined,
        glue: name === undefined ? " " : "=",
      };
      return name === undefined ? [word] : [{ text: name, quoted: false, glue: " " }, word];
    },
  );
}

function formId(line: Line): string {
  return `${line.length} ${line.map(({ quoted }) => (quoted ? "q" : "w")).join("")}`;
}

function groupBy<T>(all: readonly T[], idOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const known = groups.get(idOf(one));
    if (known === undefined) groups.set(idOf(one), [one]);
    else known.push(one);
  }
  return groups;
}

/** Second words that say what a line is of, rather than which thing it is about: each has one form of its own. */
function keywordsOf(lines: readonly Line[]): ReadonlySet<string> {
  if (new Set(lines.map(formId)).size < 2) return new Set();
  const seconds = groupBy(lines, (line) => line[1]?.text ?? "");
  const own = [...seconds].filter(
    ([word, group]) => /^[A-Za-z]{2,}$/.test(word) && new Set(group.map(formId)).size === 1,
  );
  return new Set(own.length * 2 >= seconds.size ? own.map(([word]) => word) : []);
}

/** Lines of one group apart by a third word that is one of a few, where one thing has lines with several of them. */
function byKeyword(group: readonly Line[]): readonly (readonly Line[])[] {
  const parts = groupBy(group, (line) => line[2]?.text ?? "");
  const isFew = parts.size > 1 && parts.size <= 12 && group.length >= parts.size * 2;
  const areWords = [...parts.keys()].every((word) => /^[a-z][a-z-]+$/i.test(word));
  if (!isFew || !areWords || group[0]![2]?.quoted === true) return [group];
  const things = groupBy(group, (line) => line[1]!.text);
  const isSeveral = [...things.values()].some((own) => new Set(own.map((line) => line[2]!.text)).size > 1);
  return isSeveral ? [...parts.values()] : [group];
}

interface Heads {
  readonly heads: ReadonlyMap<string, readonly Line[]>;
  readonly keysOfHeads: ReadonlyMap<string, ReadonlySet<string | undefined>>;
  readonly keyword: boolean;
}

/** The first word of other lines whose keys these lines name, several times each: "input dcp ..." belongs to "source dcp". */
function outerHead(
  head: string,
  group: readonly Line[],
  { heads, keysOfHeads, keyword }: Heads,
): string | undefined {
  const own = new Set(group.map((line) => line[1]?.text));
  if (keyword || own.size === group.length || own.size < 2) return undefined;
  const others = new Set(heads.get(head)!.flatMap((line) => (group.includes(line) ? [] : [line[1]?.text])));
  if ([...own].every((key) => others.has(key))) return undefined;
  for (const [other, lines] of heads) {
    if (other === head || keysOfHeads.get(other)!.size !== lines.length) continue;
    if ([...own].every((key) => keysOfHeads.get(other)!.has(key))) return other;
  }
  return undefined;
}

interface FormOptions {
  readonly keyword: boolean;
  /** Whether no other line begins with the same word. */
  readonly alone: boolean;
  readonly outer: string | undefined;
  /** Names of values that are taken, by the first word of the place. */
  readonly names: Map<string, Set<string>>;
  readonly places: Set<string>;
}

function formOf(lines: readonly Line[], { keyword, alone, outer, names, places }: FormOptions): LinePattern {
  const group = splitColumns(lines);
  const [first] = group as readonly [Line];
  const head = nameFor(first[0]!.text);
  const isFixed = first.map((word, i) => i === 0 || (i === 1 && keyword) || isSame(group, word, i));
  const keys = group.length === 1 && (keyword || alone) ? [] : keyPositions(group, isFixed);
  const place = outer === undefined ? [head] : [nameFor(outer)];
  const taken = names.get(place[0]!) ?? new Set<string>();
  names.set(place[0]!, taken);
  let last = head;
  const series = seriesFrom(group, isFixed);
  const parts = first.slice(0, series + 1).map((word, i) => {
    if (i === series) return `{${freeName("values", taken)}:rest}`;
    if (isFixed[i]) {
      if (i > 0 && namesWhatFollows(word, first[i + 1])) last = nameFor(word.text);
      if (i === 1 && keyword) place.push(last);
      return word.text;
    }
    const key = keys.indexOf(i);
    if (key >= 0) {
      const name = `key${key === 0 ? "" : key + 1}`;
      if (key > 0) place.push(isFixed[i - 1] ? last : outer === undefined ? "item" : head);
      place.push(`{${name}}`);
      return `{${name}}`;
    }
    const texts = group.map((line) => line[i]!.text);
    const affix = affixOf(texts);
    const isNamed = last !== head || (isFixed[i - 1] && i > 1);
    const name = freeName(isNamed ? last : (nameByValues(word, texts, affix) ?? last), taken);
    return `{${name}${word.quoted ? ":quoted" : word.style === undefined ? "" : `:${word.style}`}}`;
  });
  const form = parts.map((part, i) => (i === 0 ? part : first[i]!.glue + part)).join("");
  return { form, at: placeFor(place, keys.length > 0, places) };
}

const SWITCHES = new Set(SWITCH_WORDS.flat());

/** A word that is in every line of a group: several lines, or it could be a value. */
function isSame(group: readonly Line[], word: Word, at: number): boolean {
  if (word.quoted || word.style !== undefined) return false;
  if (group[0]![at + 1]?.glue === "=") return true;
  // "film" of "film.L" is one of several that there could be.
  if (group[0]![at + 1] !== undefined && !/^[ #@]/.test(group[0]![at + 1]!.glue)) return false;
  const isSign = /^[^\w\s"]+$/.test(word.text) && !/^[-+*.]+$/.test(word.text);
  if (group.length === 1) return isSign || namesNext(group[0]!, at);
  if (!isSign && !/^[A-Za-z]+$/.test(word.text)) return false;
  if (at > 2 && SWITCHES.has(word.text.toLowerCase())) return false;
  return group.every((line) => line[at]!.text === word.text);
}

/** Whether a fixed word speaks of what stands behind it: no mere sign, and no name such as "film" in "film.L". */
function namesWhatFollows({ text }: Word, next: Word | undefined): boolean {
  return /[A-Za-z]/.test(text) && (isKnownWord(text) || next === undefined || /^[ =]/.test(next.glue));
}

const VALUES = new Set(Object.values(FIELD_WORDS).flat());

/** Whether a word of a line that stands alone names the value behind it: a word of the trade that is no value itself. */
function namesNext(line: Line, at: number): boolean {
  const [word, next] = [line[at]!, line[at + 1]];
  if (at === 0 || next === undefined || !/^[A-Za-z]{2,}$/.test(word.text)) return false;
  const isName = isKnownWord(word.text) && !SWITCHES.has(word.text.toLowerCase()) && !VALUES.has(word.text);
  return isName && (next.quoted || !/^[A-Za-z]{2,}$/.test(next.text) || !isKnownWord(next.text));
}

/** The words by which lines of a group are told apart: the second, and as many of the next as it takes. */
function keyPositions(group: readonly Line[], isFixed: readonly boolean[]): readonly number[] {
  const open = isFixed.flatMap((fixed, i) => (fixed || group[0]![i]!.quoted ? [] : [i]));
  const keys: number[] = [];
  for (const at of open.slice(0, 4)) {
    if (group.some((line) => /^[+-]?\d*[.,]\d/.test(line[at]!.text))) break;
    keys.push(at);
    const ids = group.map((line) => keys.map((key) => line[key]!.text).join("\n"));
    if (new Set(ids).size === group.length) return group.length === 1 && keys[0] !== 1 ? [] : keys;
  }
  return [];
}

/** Where numbers begin that go on to the end of the line, as a list; the line's length if there are none. */
function seriesFrom(group: readonly Line[], isFixed: readonly boolean[]): number {
  const isNumber = (i: number) => group.every((line) => /^[+-]?[\d.,]+$/.test(line[i]!.text));
  let from = isFixed.length;
  while (from > 0 && !isFixed[from - 1] && isNumber(from - 1)) from -= 1;
  return isFixed.length - from >= LEAST_SERIES ? from : isFixed.length;
}

/** So many numbers one after the other are bands of an equalizer or of a measurement. */
const LEAST_SERIES = 9;

const NAMES_BY_FORM: readonly (readonly [form: RegExp, name: string])[] = [
  [/^\d{4}-\d{2}-\d{2}$/, "date"],
  [/^\d{1,3}(?:\.\d{1,3}){3}$/, "address"],
  [/^(?:44100|48000|88200|96000)$/, "rate"],
];

const NAMES_BY_AFFIX: Readonly<Record<string, string>> = {
  dB: "gain",
  ms: "delay",
  m: "metres",
  C: "air",
  Hz: "hz",
};

/** Names that values got by what they look like: no word of the export. */
export const NAMES_BY_VALUE: ReadonlySet<string> = new Set([
  "label",
  ...NAMES_BY_FORM.map(([, name]) => name),
  ...Object.values(NAMES_BY_AFFIX),
]);

/** A name for a value that no word stands ahead of, from what it looks like. */
function nameByValues(word: Word, texts: readonly string[], affix: string | undefined): string | undefined {
  if (word.quoted) return "label";
  if (affix !== undefined && NAMES_BY_AFFIX[affix] !== undefined) return NAMES_BY_AFFIX[affix];
  return NAMES_BY_FORM.find(([form]) => texts.every((text) => form.test(text)))?.[1];
}

/** Letters that end every word, such as "dB", where numbers stand ahead of them. */
function affixOf(texts: readonly string[]): string | undefined {
  const endings = new Set(texts.map((text) => /^[+-]?[\d.,]+([A-Za-z%]+)$/.exec(text)?.[1]));
  const [only] = endings;
  return endings.size === 1 ? only : undefined;
}

function placeFor(place: readonly string[], isKeyed: boolean, places: Set<string>): string {
  const at = `/${place.join("/")}`;
  if (isKeyed || !places.has(at)) {
    places.add(at);
    return at;
  }
  return `${at}/-`;
}

function nameFor(text: string): string {
  return text.replace(/[^A-Za-z0-9]+/g, "").replace(/^[^A-Za-z]+/, "") || "value";
}

function freeName(wanted: string, taken: Set<string>): string {
  let name = wanted;
  for (let i = 2; taken.has(name) || /^key\d*$/.test(name); i += 1) name = `${wanted}${i}`;
  taken.add(name);
  return name;
}
