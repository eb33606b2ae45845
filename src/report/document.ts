import type { Severity } from "../base/findings/index.ts";

/**
 * A report as data: blocks from top to bottom. Composers make it, renderers draw it as text, Markdown or HTML.
 * Every text in it is plain text: a renderer escapes it, so nothing in a label can ever act as markup.
 */
export interface ReportDocument {
  readonly title: string;
  /** What the report is about, in one line under the title. */
  readonly subtitle?: string;
  /** What stands at the foot of every printed page beside its number: words that match a loose page with the rest. */
  readonly footer?: string;
  /** Why the report is a draft ("16 questions are open"): every page of it says so, on a screen and on paper. */
  readonly draft?: string;
  readonly blocks: readonly Block[];
}

/** A part of a paper; `kind` tells them apart. */
export type Block =
  | Heading
  | Paragraph
  | Facts
  | ItemList
  | Table
  | Caution
  | Figure
  | ScanCode
  | Signatures
  | PageBreak
  | Columns;

/** A heading below the title: level 2 for a part, 3 for a section inside it. */
export interface Heading {
  readonly kind: "heading";
  readonly level: 2 | 3;
  readonly text: string;
}

/** A paragraph of text. */
export interface Paragraph {
  readonly kind: "paragraph";
  readonly text: string;
  /** `note`: smaller, for remarks on how something was computed. `lead`: the one sentence to remember. */
  readonly weight?: "note" | "lead";
}

/** Names and their values, one pair a line. */
export interface Facts {
  readonly kind: "facts";
  readonly pairs: readonly (readonly [name: string, value: string])[];
}

/** A list of items. */
export interface ItemList {
  readonly kind: "list";
  /** `box`: an empty box to tick; `number`: 1, 2, 3. */
  readonly marker: "dot" | "number" | "box";
  readonly items: readonly Item[];
}

/** An item of a list. */
export interface Item {
  /** What the item is about; stands out before the text. */
  readonly lead?: string;
  readonly text: string;
  /** Short words that say of what sort the item is ("protection", "2 seats affected"). */
  readonly tags?: readonly string[];
  /** How serious it is; always said in words too. */
  readonly severity?: Severity;
  /** Further lines below the text. */
  readonly notes?: readonly string[];
}

/** A table. Rows have as many cells as there are columns. */
export interface Table {
  readonly kind: "table";
  /** Stands above the table and names it. */
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** Every row starts with an empty box to tick. */
  readonly boxes?: boolean;
  /** The first column names the row. */
  readonly rowNames?: boolean;
}

/** The head of a column. */
export interface Column {
  readonly header: string;
  /** Numbers stand at the end. @defaultValue "start" */
  readonly align?: "start" | "end" | "center";
}

/** The text of a cell; `strong` stands out, but never says anything that the text does not. */
export type Cell = string | { readonly text: string; readonly strong: true };

/** A box that nobody may overlook. */
export interface Caution {
  readonly kind: "caution";
  readonly title: string;
  readonly items: readonly string[];
}

/** A drawing. Whoever cannot see it reads `alt`, which therefore holds the figures that matter. */
export interface Figure {
  readonly kind: "figure";
  readonly caption: string;
  readonly alt: string;
  readonly drawing: SvgNode;
}

/** A code for a camera. Whoever has no camera reads the caption and the text. */
export interface ScanCode {
  readonly kind: "scan-code";
  readonly caption: string;
  /** What the code holds. */
  readonly text: string;
  /** A text for each row of modules from the top: "#" is dark, "." is light; with its quiet zone. */
  readonly modules: readonly string[];
}

/** Lines to sign on, each with a date. */
export interface Signatures {
  readonly kind: "signatures";
  /** Who signs: "Engineer", "For the exhibitor". */
  readonly roles: readonly string[];
}

/** The next block starts a new page when printed. */
export interface PageBreak {
  readonly kind: "page-break";
}

/**
 * Groups of narrow blocks that flow in two columns on paper, down the first and then down the second; a group that fits
 * in a column is not broken. Elsewhere the blocks stand one after the other.
 */
export interface Columns {
  readonly kind: "columns";
  readonly groups: readonly (readonly Block[])[];
}

/** An element of a drawing (SVG 1.1). Attributes and texts are escaped when it is written. */
export interface SvgNode {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children?: readonly (SvgNode | string)[];
}

/** What every page of a draft says; undefined: it is none. */
export function draftMark({ draft }: ReportDocument): string | undefined {
  return draft === undefined ? undefined : `DRAFT, not for use: ${draft}`;
}

/** The text of a cell, whatever its form. */
export function cellText(cell: Cell): string {
  return typeof cell === "string" ? cell : cell.text;
}
