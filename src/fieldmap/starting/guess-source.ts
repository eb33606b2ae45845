import type { ExportSource } from "../../model/index.ts";
import { guessForms } from "./guess-forms.ts";

/** What kind of text an export is, by its beginning and by what most of its lines have in common. */
export function guessSource(text: string): ExportSource {
  const begin = text.trimStart();
  if (/^[[{]/.test(begin) && !/^\[[^\]"{[\n]+\]\s*$/m.test(begin.slice(0, 400))) return { kind: "json" };
  if (begin.startsWith("<")) return { kind: "xml", lists: repeatedElements(begin) };
  const lines = begin.split(/\r\n|\n|\r/).filter((line) => line.trim() !== "");
  const comments = ["!", "#", ";", "//"].filter((mark) => lines.some((line) => isComment(line, mark)));
  const told = lines.filter((line) => !comments.some((mark) => isComment(line, mark)));
  return keysAndValues(told, comments) ?? table(told) ?? lineForms(told, comments);
}

/** A mark with a space behind it, or a line of nothing else; "#OUT;id" is a header. */
function isComment(line: string, mark: string): boolean {
  const bare = line.trim();
  return bare === mark || bare.startsWith(`${mark} `);
}

const ENOUGH = 0.8;

function share(lines: readonly string[], fits: (line: string) => boolean): number {
  const sample = lines.slice(0, 400);
  return sample.filter(fits).length / Math.max(1, sample.length);
}

function keysAndValues(lines: readonly string[], comments: string[]): ExportSource | undefined {
  const isSection = (line: string) => /^\s*\[[^\]]+\]\s*$/.test(line);
  const sections = lines.some(isSection);
  const separator = ["=", ":", "\t"].find(
    (mark) => share(lines, (line) => isSection(line) || isKey(line, mark)) > ENOUGH,
  );
  if (separator === undefined) return undefined;
  const names = lines.map((line) =>
    isSection(line) ? line.trim().slice(1, -1) : line.slice(0, line.indexOf(separator)).trim(),
  );
  const divider = [".", "/", "\\", ":", " ", "_", "-"].find(
    (mark) => mark !== separator && names.filter((name) => isDivided(name, mark)).length >= names.length / 8,
  );
  return {
    ...{ kind: "key-value", separator, sections },
    ...(divider === undefined ? {} : { divider }),
    ...(comments.length === 0 ? {} : { comments }),
  };
}

function isKey(line: string, separator: string): boolean {
  const key = line.slice(0, Math.max(0, line.indexOf(separator))).trim();
  // With more than one tab in a line it is a table.
  if (separator === "\t" && line.split(separator).length > 2) return false;
  return /^[\w./\\: -]+$/.test(key) && key.split(/\s+/).length <= 4;
}

/** Names such as "out.3.gain", with a number or a key in their midst. */
function isDivided(name: string, mark: string): boolean {
  const parts = name.split(mark);
  return parts.length > 1 && parts.every((part) => part !== "");
}

function table(lines: readonly string[]): ExportSource | undefined {
  for (const delimiter of [";", "\t", ",", "|"]) {
    if (share(lines, (line) => line.includes(delimiter)) < ENOUGH) continue;
    const mark = ["#", "*", ":", "@"].find((own) => lines.some((line) => line.startsWith(own)));
    if (mark !== undefined) return { kind: "table", delimiter, header: "by-mark", mark };
    const [first = ""] = lines;
    const isHeader = first.split(delimiter).every((cell) => !/^[+-]?\d/.test(cell.trim()));
    return { kind: "table", delimiter, header: isHeader ? "first-row" : "none" };
  }
  return undefined;
}

function lineForms(lines: readonly string[], comments: string[]): ExportSource {
  return { kind: "lines", forms: guessForms(lines), ...(comments.length === 0 ? {} : { comments }) };
}

/** Names of elements that stand more than once inside one element. */
function repeatedElements(text: string): string[] {
  const repeated = new Set<string>();
  const open: Set<string>[] = [new Set()];
  for (const [, close, name, single] of text.matchAll(/<(\/?)([A-Za-z_][\w.:-]*)[^<>]*?(\/?)>/g)) {
    if (close === "/") {
      if (open.length > 1) open.pop();
      continue;
    }
    const inside = open.at(-1)!;
    if (inside.has(name!)) repeated.add(name!);
    inside.add(name!);
    if (single !== "/") open.push(new Set());
  }
  return [...repeated];
}
