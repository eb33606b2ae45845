import type { ExportSource } from "../../../model/index.ts";
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
  const lists = repeatedSections(lines.filter(isSection).map((line) => line.trim().slice(1, -1).trim()));
  const divider = [".", "/", "\\", ":", " ", "_", "-"].find(
    (mark) =>
      mark !== separator &&
      lists.length === 0 &&
      names.filter((name) => isDivided(name, mark)).length >= names.length / 8,
  );
  return {
    ...{ kind: "key-value", separator, sections },
    ...(divider === undefined ? {} : { divider }),
    ...(lists.length === 0 ? {} : { lists }),
    ...(comments.length === 0 ? {} : { comments }),
  };
}

function repeatedSections(names: readonly string[]): string[] {
  return [...new Set(names.filter((name, i) => names.indexOf(name) < i))];
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
    return oneTable(lines, delimiter);
  }
  return undefined;
}

/** A table with its title ahead of it and its units below the names, as far as rows show which are which. */
function oneTable(lines: readonly string[], delimiter: string): ExportSource {
  const rows = lines.map((line) => line.split(delimiter).map((cell) => cell.trim()));
  const width = Math.max(...rows.map((row) => row.length));
  const isName = (row: readonly string[]) => row.every((cell) => !/^[+-]?\d/.test(cell));
  const titleRows = rows.findIndex(
    (row) => row.length === width && row.filter((cell) => cell !== "").length > width / 2 && isName(row),
  );
  if (titleRows < 0 || titleRows > MOST_TITLE_ROWS) return { kind: "table", delimiter, header: "none" };
  const next = rows[titleRows + 1] ?? [];
  const isUnits = next.length === width && isName(next) && next.some((cell) => UNIT_NAMES.test(cell));
  return {
    ...{ kind: "table", delimiter, header: "first-row" },
    ...(titleRows > 0 ? { titleRows } : {}),
    ...(isUnits ? { headerRows: 2 } : {}),
    ...(rows.slice(titleRows).some((row) => row.length < width) ? { ragged: true } : {}),
  };
}

const MOST_TITLE_ROWS = 20;

const UNIT_NAMES =
  /^[[(]?(?:k?Hz|dB(?:FS|u|V)?|dB\/oct\w*|ms|s|µs|us|m|cm|mm|ft|°C|C|W|ohms?|Ω|oct\w*|samples?|smp)[\])]?$/i;

function lineForms(lines: readonly string[], comments: string[]): ExportSource {
  return { kind: "lines", forms: guessForms(lines), ...(comments.length === 0 ? {} : { comments }) };
}

/** Names of elements that stand more than once inside one element. */
function repeatedElements(text: string): string[] {
  const repeated = new Set<string>();
  const open: Set<string>[] = [new Set()];
  for (const [, close, name, rest] of text.matchAll(/<(\/?)([A-Za-z_][\w.:-]*)(?![\w.:-])([^<>]*)>/g)) {
    if (close === "/") {
      if (open.length > 1) open.pop();
      continue;
    }
    const inside = open.at(-1)!;
    if (inside.has(name!)) repeated.add(name!);
    inside.add(name!);
    if (!rest!.endsWith("/")) open.push(new Set());
  }
  return [...repeated];
}
