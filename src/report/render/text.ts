import { harmless } from "../../base/text/index.ts";
import type {
  Block,
  Caution,
  Columns,
  Facts,
  Heading,
  Item,
  ItemList,
  ReportDocument,
  ScanCode,
  Signatures,
} from "../document.ts";
import { draftMark } from "../document.ts";
import { pad, widthOf, wrapLines } from "./columns.ts";
import type { TextOptions } from "./options.ts";
import { PLAIN_STYLE, type Style, TERMINAL_STYLE } from "./text-style.ts";
import { textTable } from "./text-table.ts";

/** Widest column of names in a list of facts. */
const NAMES_WIDEST = 24;
const NARROWEST_PAGE = 24;

/**
 * A report as plain text, at most `columns` (at least 24) columns wide, ending with one line end. Without `color`
 * the text holds no control character but line ends.
 */
export function renderText(report: ReportDocument, options: TextOptions = {}): string {
  const columns = Math.max(NARROWEST_PAGE, options.columns ?? 80);
  const style = options.color ? TERMINAL_STYLE : PLAIN_STYLE;
  const title = wrapLines(harmless(report.title), columns);
  const head = [
    ...title.map(style.strong),
    ...(report.subtitle === undefined ? [] : wrapLines(harmless(report.subtitle), columns)),
    style.faint("═".repeat(columns)),
  ];
  const parts = flattened(report.blocks).map((block) => linesOfBlock(block, columns, style));
  const text = [head, ...parts].map((lines) => lines.join("\n")).join("\n\n");
  const mark = draftMark(report);
  return `${mark === undefined ? text : draftText(text, wrapLines(harmless(mark), columns).map(style.caution))}\n`;
}

/** So many lines are on every printed page. */
const LINES_OF_A_PAGE = 40;

/** Marks a draft at both ends and so often that no printed page is without a mark. */
function draftText(text: string, mark: readonly string[]): string {
  const lines = text.split("\n");
  const marked = lines.flatMap((line, index) => (index % LINES_OF_A_PAGE === 0 ? [...mark, line] : [line]));
  return [...marked, ...mark].join("\n");
}

/** A terminal has one column: what would flow in two stands one after the other. */
function flattened(blocks: readonly Block[]): readonly Exclude<Block, Columns>[] {
  return blocks.flatMap((block) => (block.kind === "columns" ? flattened(block.groups.flat()) : [block]));
}

function linesOfBlock(block: Exclude<Block, Columns>, columns: number, style: Style): readonly string[] {
  switch (block.kind) {
    case "heading":
      return headingLines(block, columns, style);
    case "paragraph":
      return wrapLines(harmless(block.text), columns).map(
        block.weight === "lead" ? style.strong : (text) => text,
      );
    case "facts":
      return factLines(block, columns);
    case "list":
      return listLines(block, columns, style);
    case "table":
      return textTable(block, columns, style);
    case "caution":
      return cautionLines(block, columns, style);
    case "figure":
      return [
        ...wrapLines(harmless(block.caption), columns).map(style.strong),
        ...indented(harmless(block.alt), columns, "  "),
      ];
    case "scan-code":
      return scanCodeLines(block, columns, style);
    case "signatures":
      return signatureLines(block, columns);
    case "page-break":
      return [style.faint("─".repeat(columns))];
  }
}

function headingLines({ level, text }: Heading, columns: number, style: Style): string[] {
  const lines = wrapLines(harmless(text), columns);
  const widest = Math.max(...lines.map(widthOf));
  const under = level === 2 ? "═" : "─";
  return [...lines.map(style.strong), style.faint(under.repeat(widest))];
}

function indented(text: string, columns: number, indent: string): string[] {
  return wrapLines(text, columns - indent.length).map((line) => `${indent}${line}`);
}

/** A first line that starts with a mark, later ones as far in as the mark is wide. */
function hanging(mark: string, text: string, columns: number): string[] {
  const space = " ".repeat(widthOf(mark));
  return wrapLines(text, columns - widthOf(mark)).map((line, index) => (index === 0 ? mark : space) + line);
}

function factLines({ pairs }: Facts, columns: number): string[] {
  const widest = Math.max(0, ...pairs.map(([name]) => widthOf(harmless(name))));
  const names = Math.min(NAMES_WIDEST, Math.floor(columns / 2), widest);
  return pairs.flatMap(([name, value]) => {
    const left = wrapLines(harmless(name), names);
    const right = wrapLines(harmless(value), columns - names - 2);
    return Array.from({ length: Math.max(left.length, right.length) }, (_, at) =>
      `${pad(left[at] ?? "", names)}  ${right[at] ?? ""}`.trimEnd(),
    );
  });
}

const MARKS: Readonly<Record<ItemList["marker"], (index: number) => string>> = {
  dot: () => "• ",
  number: (index) => `${String(index + 1).padStart(2)}  `,
  box: () => "[ ] ",
};

function listLines({ marker, items }: ItemList, columns: number, style: Style): string[] {
  const roomy = items.some(({ tags }) => tags !== undefined && tags.length > 0);
  return items.flatMap((item, index) => {
    const lines = itemLines(item, MARKS[marker](index), columns, style);
    return roomy && index > 0 ? ["", ...lines] : lines;
  });
}

function itemLines(item: Item, mark: string, columns: number, style: Style): string[] {
  const space = " ".repeat(widthOf(mark));
  const notes = (item.notes ?? []).flatMap((note) => indented(harmless(note), columns, space));
  const tags = (item.tags ?? []).map(harmless).join(", ");
  if (tags === "") {
    const text = item.lead === undefined ? item.text : `${item.lead}: ${item.text}`;
    return [...hanging(mark, harmless(text), columns), ...notes];
  }
  const head = item.lead === undefined ? tags : `${harmless(item.lead)} (${tags})`;
  const headLines = hanging(mark, head, columns).map(
    (line) => line.slice(0, mark.length) + style.severity(line.slice(mark.length), item.severity),
  );
  return [...headLines, ...indented(harmless(item.text), columns, space), ...notes];
}

function cautionLines({ title, items }: Caution, columns: number, style: Style): string[] {
  const inner = columns - 4;
  const name = wrapLines(harmless(title).toUpperCase(), inner - 2);
  const body = [...name.slice(1), ...items.flatMap((item) => hanging("! ", harmless(item), inner))];
  const top = `┏━ ${name[0]} `;
  return [
    `${top}${"━".repeat(Math.max(0, columns - widthOf(top) - 1))}┓`,
    ...body.map((line) => `┃ ${pad(line, inner)} ┃`),
    `┗${"━".repeat(columns - 2)}┛`,
  ].map(style.caution);
}

/** Two rows of modules in a line. Where the page is too narrow for the code, its words alone. */
function scanCodeLines({ caption, text, modules }: ScanCode, columns: number, style: Style): string[] {
  const words = [
    ...wrapLines(harmless(caption), columns).map(style.strong),
    ...wrapLines(harmless(text), columns),
  ];
  if ((modules[0]?.length ?? 0) > columns) return words;
  const code = modules.flatMap((row, index) =>
    index % 2 > 0
      ? []
      : [
          Array.from(
            row,
            (upper, at) => HALF_BLOCKS[`${upper}${modules[index + 1]?.[at] ?? "."}`] ?? " ",
          ).join(""),
        ],
  );
  return [...code.map((line) => style.ink(line)), ...words];
}

const HALF_BLOCKS: Readonly<Record<string, string>> = { "##": "█", "#.": "▀", ".#": "▄" };

function signatureLines({ roles }: Signatures, columns: number): string[] {
  return roles.flatMap((role, index) => [
    ...(index > 0 ? [""] : []),
    ...wrapLines(harmless(role), columns),
    `${"_".repeat(Math.max(8, columns - 24))}  Date ${"_".repeat(15)}`.slice(0, columns),
  ]);
}
