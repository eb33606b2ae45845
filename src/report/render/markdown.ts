import { harmless } from "../../base/text/index.ts";
import type { Block, Cell, Column, Item, ItemList, ReportDocument, Table } from "../document.ts";
import { cellText, draftMark } from "../document.ts";

/** Characters that CommonMark 0.31 or GitHub Flavored Markdown can take as markup wherever they stand. */
const MARKUP = /[\\`*_{}[\]<>~&|$@#]/g;
/** What starts a list or an underlined heading, only at the start of a line. */
const LINE_START = /^(?=[-+=])|(?<=^\d+)(?=[.)](?:\s|$))/;
/** What turns into a link by itself. */
const LINK = /(?<=:)(?=\/\/)|(?<=www)(?=\.)/gi;

/** Plain text as Markdown that shows exactly it; spaces at the ends could change a block or a mark, so they go. */
function escaped(text: string): string {
  return harmless(text).trim().replace(MARKUP, "\\$&").replace(LINE_START, "\\").replace(LINK, "\\");
}

function strong(text: string): string {
  const inner = escaped(text);
  return inner === "" ? "" : `**${inner}**`;
}

/** A report as Markdown (CommonMark with the tables of GitHub Flavored Markdown), for a ticket or a wiki. */
export function renderMarkdown(report: ReportDocument): string {
  const mark = draftMark(report);
  const draft = mark === undefined ? [] : [strong(mark)];
  const parts = [
    ...draft,
    `# ${escaped(report.title)}`,
    ...(report.subtitle === undefined ? [] : [escaped(report.subtitle)]),
    ...report.blocks.flatMap((block) =>
      block.kind === "heading" && block.level === 2 ? [...draft, markdownOf(block)] : [markdownOf(block)],
    ),
    ...draft,
  ];
  return `${parts.filter((part) => part !== "").join("\n\n")}\n`;
}

function markdownOf(block: Block): string {
  switch (block.kind) {
    case "heading":
      return `${"#".repeat(block.level)} ${escaped(block.text)}`;
    case "paragraph":
      return block.weight === "lead" ? strong(block.text) : escaped(block.text);
    case "facts":
      return block.pairs.map(([name, value]) => `- ${strong(`${name}:`)} ${escaped(value)}`).join("\n");
    case "list":
      return block.items.map((item, index) => itemOf(item, block.marker, index)).join("\n");
    case "table":
      return tableOf(block);
    case "caution":
      return [`> ${strong(block.title)}`, ">", ...block.items.map((item) => `> - ${escaped(item)}`)].join(
        "\n",
      );
    case "figure":
      return `${strong(block.caption)} ${escaped(block.alt)}`;
    case "scan-code":
      return `${strong(block.caption)} ${escaped(block.text)}`;
    case "signatures":
      return block.roles
        .map((role) => `${escaped(role)}: ${"\\_".repeat(30)} Date: ${"\\_".repeat(12)}`)
        .join("\n\n");
    case "page-break":
      return "---";
    case "columns":
      return block.groups.flat().map(markdownOf).join("\n\n");
  }
}

const MARKS: Readonly<Record<ItemList["marker"], (index: number) => string>> = {
  dot: () => "- ",
  number: (index) => `${index + 1}. `,
  box: () => "- [ ] ",
};

function itemOf(item: Item, marker: ItemList["marker"], index: number): string {
  const mark = MARKS[marker](index);
  const indent = " ".repeat(marker === "number" ? mark.length : 2);
  const tags = (item.tags ?? []).map(escaped).join(", ");
  const head = [strong(item.lead ?? ""), tags === "" ? "" : `(${tags})`].filter((part) => part !== "");
  const text = head.length === 0 ? escaped(item.text) : `${head.join(" ")}: ${escaped(item.text)}`;
  return [mark + text, ...(item.notes ?? []).map((note) => `${indent}- ${escaped(note)}`)].join("\n");
}

const RULES: Readonly<Record<NonNullable<Column["align"]>, string>> = {
  start: ":---",
  end: "---:",
  center: ":---:",
};

function tableOf(table: Table): string {
  const box = table.boxes ? ["☐"] : [];
  const row = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  const cell = (value: Cell): string =>
    typeof value === "string" ? escaped(value) : strong(cellText(value));
  return [
    strong(table.caption),
    "",
    row([...box.map(() => " "), ...table.columns.map(({ header }) => escaped(header))]),
    row([...box.map(() => ":---:"), ...table.columns.map(({ align }) => RULES[align ?? "start"])]),
    ...table.rows.map((cells) => row([...box, ...cells.map(cell)])),
  ].join("\n");
}
