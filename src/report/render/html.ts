import { harmless } from "../../base/text/index.ts";
import type {
  Block,
  Cell,
  Column,
  Facts,
  Figure,
  Item,
  ItemList,
  ReportDocument,
  ScanCode,
  Signatures,
  Table,
} from "../document.ts";
import { cellText, draftMark } from "../document.ts";
import { attribute, cssString, escaped } from "./html-escape.ts";
import { HTML_STYLE } from "./html-style.ts";
import { svgText } from "./svg.ts";

/** The page may load nothing and run nothing (W3C Content Security Policy Level 3). */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'";

/**
 * A report as one HTML file (WHATWG HTML) that needs nothing else: no script, no font, no picture from outside. For
 * light and dark screens from 320 px on and for paper, A4 or Letter.
 */
export function renderHtml(report: ReportDocument): string {
  const subtitle =
    report.subtitle === undefined ? "" : `\n<p class="subtitle">${escaped(report.subtitle)}</p>`;
  const mark = draftMark(report);
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<title>${mark === undefined ? "" : "DRAFT: "}${escaped(report.title)}</title>
<style>
${HTML_STYLE}${footStyle(report)}</style>
</head>
<body>${mark === undefined ? "" : `\n<p class="draft">${escaped(mark)}</p>\n<div class="draft-mark" aria-hidden="true">DRAFT</div>`}
<header>
<h1>${escaped(report.title)}</h1>${subtitle}
</header>
<main>
${report.blocks.map((block, index) => htmlOf(block, `b${index + 1}`)).join("\n")}
</main>
</body>
</html>
`;
}

/** @param id unique in the page, for what a block must refer to */
function htmlOf(block: Block, id: string): string {
  switch (block.kind) {
    case "heading":
      return `<h${block.level}>${escaped(block.text)}</h${block.level}>`;
    case "paragraph":
      return `<p${block.weight === undefined ? "" : ` class="${block.weight}"`}>${escaped(block.text)}</p>`;
    case "facts":
      return factsOf(block);
    case "list":
      return listOf(block);
    case "table":
      return tableOf(block, id);
    case "caution":
      return `<aside class="caution" aria-labelledby="${id}">
<p class="title" id="${id}">${escaped(block.title)}</p>
<ul>
${block.items.map((item) => `<li>${escaped(item)}</li>`).join("\n")}
</ul>
</aside>`;
    case "figure":
      return figureOf(block);
    case "scan-code":
      return scanCodeOf(block);
    case "signatures":
      return signaturesOf(block);
    case "page-break":
      return '<hr class="page">';
    case "columns":
      return `<div class="flow">
${block.groups.map((group, index) => groupOf(group, `${id}-${index + 1}`)).join("\n")}
</div>`;
  }
}

function groupOf(blocks: readonly Block[], id: string): string {
  return `<div class="group">
${blocks.map((block, index) => htmlOf(block, `${id}-${index + 1}`)).join("\n")}
</div>`;
}

function factsOf({ pairs }: Facts): string {
  const rows = pairs.map(([name, value]) => `<div><dt>${escaped(name)}</dt><dd>${escaped(value)}</dd></div>`);
  return `<dl>\n${rows.join("\n")}\n</dl>`;
}

function listOf({ marker, items }: ItemList): string {
  const tag = marker === "number" ? "ol" : "ul";
  return `<${tag} class="items ${marker}">\n${items.map((item) => itemOf(item, marker)).join("\n")}\n</${tag}>`;
}

function itemOf(item: Item, marker: ItemList["marker"]): string {
  const body = `${headOf(item)}<span class="text">${escaped(item.text)}</span>`;
  const ticked = marker === "box" ? `<label><input type="checkbox"> <span>${body}</span></label>` : body;
  const notes = (item.notes ?? []).map((note) => `<li>${escaped(note)}</li>`).join("");
  const severity = item.severity === undefined ? "" : ` class="${item.severity}"`;
  return `<li${severity}>${ticked}${notes === "" ? "" : `<ul class="notes">${notes}</ul>`}</li>`;
}

function headOf({ lead, tags = [] }: Item): string {
  if (tags.length === 0) return lead === undefined ? "" : `<strong>${escaped(lead)}:</strong> `;
  const name = lead === undefined ? "" : `<strong>${escaped(lead)}</strong> `;
  return `<span class="head">${name}${tags.map((tag) => `<span class="tag">${escaped(tag)}</span>`).join(" ")}</span> `;
}

function tableOf(table: Table, id: string): string {
  const boxHeader = table.boxes ? '<th scope="col" class="box"><span class="unseen">Done</span></th>' : "";
  const headers = table.columns.map((column) => headerOf(column));
  const rows = table.rows.map((cells) => {
    const box = table.boxes ? `<td class="box">${tickBox(cells)}</td>` : "";
    return `<tr>${box}${cells.map((cell, at) => cellOf(cell, table, at)).join("")}</tr>`;
  });
  return `<section class="scroll" tabindex="0" aria-labelledby="${id}">
<table>
<caption id="${id}"${classes(table.caption)}>${escaped(table.caption)}</caption>
<thead><tr>${boxHeader}${headers.join("")}</tr></thead>
<tbody>
${rows.join("\n")}
</tbody>
</table>
</section>`;
}

/** A column without a name has no header cell: a header says something. */
function headerOf(column: Column): string {
  if (column.header === "") return "<td></td>";
  return `<th scope="col"${classes(column.header, column)}>${escaped(column.header)}</th>`;
}

function tickBox(cells: readonly Cell[]): string {
  return `<input type="checkbox" aria-label="${attribute(`Done: ${cells.map(cellText).join(", ")}`)}">`;
}

/** Cells with a word longer than any that people read as one may be broken anywhere; others only between words. */
const LONG_WORD = /[^\s-]{18,}/u;

function classes(text: string, column?: Column): string {
  const names = [
    ...(column?.align === undefined || column.align === "start" ? [] : [column.align]),
    ...(LONG_WORD.test(harmless(text)) ? ["long"] : []),
  ];
  return names.length === 0 ? "" : ` class="${names.join(" ")}"`;
}

function cellOf(cell: Cell, table: Table, at: number): string {
  const text = escaped(cellText(cell));
  const inner = typeof cell === "string" ? text : `<strong>${text}</strong>`;
  const align = classes(cellText(cell), table.columns[at]);
  return table.rowNames && at === 0 ? `<th scope="row"${align}>${inner}</th>` : `<td${align}>${inner}</td>`;
}

function figureOf({ caption, alt, drawing }: Figure): string {
  const named = { ...drawing, attributes: { ...drawing.attributes, role: "img", "aria-label": alt } };
  return `<figure>\n${svgText(named)}\n<figcaption>${escaped(caption)}</figcaption>\n</figure>`;
}

/** Black on white in every scheme: readers of codes want it so. */
function scanCodeOf({ caption, text, modules }: ScanCode): string {
  const dark = modules.flatMap((row, y) =>
    Array.from(row.matchAll(/#+/g), ({ 0: run, index }) => `M${index} ${y}h${run.length}v1h-${run.length}z`),
  );
  const side = modules.length;
  const svg = svgText({
    tag: "svg",
    attributes: {
      viewBox: `0 0 ${side} ${side}`,
      role: "img",
      "aria-label": text,
      "shape-rendering": "crispEdges",
    },
    children: [
      { tag: "path", attributes: { fill: "#fff", d: `M0 0h${side}v${side}h-${side}z` } },
      { tag: "path", attributes: { fill: "#000", d: dark.join("") } },
    ],
  });
  return `<figure class="code">
${svg}
<figcaption><strong>${escaped(caption)}</strong> <span class="held">${escaped(text)}</span></figcaption>
</figure>`;
}

/** The foot of every printed page (CSS Paged Media Level 3, margin boxes): what the page belongs to, and its number. */
function footStyle(report: ReportDocument): string {
  const { title, footer = title } = report;
  const mark = draftMark(report);
  const box = (content: string) => `{ content: ${content}; font: 8pt "Liberation Sans", Arial, sans-serif; }`;
  return `@media print {
  @page {
    @bottom-left ${box(cssString(footer))}${mark === undefined ? "" : `\n    @top-left ${box(cssString(mark))}`}
    @bottom-right ${box('"Page " counter(page) " of " counter(pages)')}
  }
}
`;
}

function signaturesOf({ roles }: Signatures): string {
  const lines = roles.map(
    (role) => `<div class="signature"><span>${escaped(role)}</span><span class="date">Date</span></div>`,
  );
  return `<div class="signatures">\n${lines.join("\n")}\n</div>`;
}
