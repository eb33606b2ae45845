import { pointerParts } from "../../../base/findings/index.ts";
import type { KeyValueSource } from "../../../model/index.ts";
import { pointerPart } from "../tree.ts";
import {
  type KeyValueLine,
  keysAndValues,
  type ListedPath,
  type ValueWriter,
  valueWriter,
} from "./key-value-lines.ts";
import type { LineDocument, PlacedLine } from "./line-structure.ts";

/** The lines of a text of keys and values, each of which can be written for another place. */
export function keyValueDocument(text: string, source: KeyValueSource): LineDocument {
  const lines: PlacedLine[] = [];
  const write = valueWriter(source);
  const sections = new Map<PlacedLine, ListedPath>();
  let between = source.separator;
  keysAndValues(text, source, (line) => {
    const placed =
      line.kind === "section" ? sectionLine(text, line, source) : valueLine(text, line, source, write);
    lines.push(placed);
    sections.set(placed, line.kind === "section" ? line.path : line.section);
    if (line.kind === "value") between = betweenKeyAndValue(text, line, source);
  });
  return {
    text,
    lines,
    newLines: (places, near) => {
      const made: { near: PlacedLine; text: string }[] = [];
      for (const place of places.filter(({ filler }) => !filler)) {
        const path = [...pointerParts(place.item), ...place.names];
        const beside = near(path);
        const section = beside === undefined ? undefined : sections.get(beside);
        const key = section === undefined ? undefined : keyIn(section, path, source);
        const value = write({ style: "rest" }, place.raw);
        if (beside === undefined || key === undefined || value === undefined) return undefined;
        made.push({ near: beside, text: key + between + value });
      }
      return made;
    },
  };
}

function sectionLine(text: string, { start, end, path }: KeyValueLine, source: KeyValueSource): PlacedLine {
  const line = text.slice(start, end);
  const [lead = ""] = /^\s*\[\s*/.exec(line) ?? [];
  const inside = line.trimEnd().replace(/\]$/, "").trimEnd();
  const trail = line.slice(Math.max(lead.length, inside.length));
  return {
    ...{ start, end, path: path.map(String), leaves: [] },
    rewrite: (next) => {
      const name = nameOf(namesOf(next, path), source, /[\r\n\]]/);
      return name === undefined ? undefined : lead + name + trail;
    },
  };
}

function valueLine(
  text: string,
  line: Extract<KeyValueLine, { readonly kind: "value" }>,
  source: KeyValueSource,
  write: ValueWriter,
): PlacedLine {
  const { start, end, path, section, value } = line;
  const pointer = path.map(pointerPart).join("");
  const whole = text.slice(start, end);
  const key = whole.slice(0, whole.indexOf(source.separator));
  const lead = key.slice(0, key.length - key.trimStart().length);
  return {
    ...{ start, end, path: path.map(String), leaves: [pointer] },
    rewrite: (next, raws) => {
      const own = namesOf(next.slice(section.length), path.slice(section.length));
      const name = nameOf(own, source, KEY_ENDS);
      const raw = write({ style: value.quoted ? "quoted" : "rest" }, raws.get(pointer) ?? value.raw);
      if (name === undefined || raw === undefined) return undefined;
      const between = text.slice(start + key.trimEnd().length, value.start);
      return `${lead}${name}${between}${raw}${text.slice(value.end, end)}`;
    },
  };
}

/** The names of a place without the numbers that stand where those of another place like it do. */
function namesOf(place: readonly string[], like: ListedPath): readonly string[] {
  return place.filter((_part, i) => i >= like.length || typeof like[i] === "string");
}

const KEY_ENDS = /[\r\n]|^\s|\s$|^\[|^$/;

/** The parts of a place as one name; undefined where it would read as another place. */
function nameOf(
  path: readonly string[],
  { divider, separator, comments = [] }: KeyValueSource,
  forbidden: RegExp,
): string | undefined {
  if (divider === undefined && path.length !== 1) return undefined;
  if (path.some((part) => part === "" || (divider !== undefined && part.includes(divider)))) return undefined;
  const name = path.join(divider);
  const isOther = name.includes(separator) || comments.some((mark) => name.startsWith(mark));
  return isOther || forbidden.test(name) ? undefined : name;
}

function keyIn(section: ListedPath, path: readonly string[], source: KeyValueSource): string | undefined {
  if (!section.every((part, i) => String(part) === path[i])) return undefined;
  return nameOf(path.slice(section.length), source, KEY_ENDS);
}

/** The separator with the space around it. */
function betweenKeyAndValue(
  text: string,
  { start, value }: Extract<KeyValueLine, { readonly kind: "value" }>,
  { separator }: KeyValueSource,
): string {
  const whole = text.slice(start, value.start);
  return whole.slice(whole.slice(0, whole.indexOf(separator)).trimEnd().length);
}
