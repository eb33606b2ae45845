import { zip } from "../../base/zip/index.ts";
import { WORKBOOK_RULES } from "./workbook-parts.ts";
import {
  CONTENT_TYPES,
  contentTypes,
  PACKAGE_RELATIONS,
  STYLES,
  workbookRelations,
  workbookXml,
} from "./workbook-xml.ts";
import { worksheetXml } from "./worksheet-xml.ts";

/** A sheet to be written: the first row holds the headings. */
export interface SheetToWrite {
  /** At most 31 characters, none of []:*?/\\. */
  readonly name: string;
  readonly rows: readonly (readonly (string | number | undefined)[])[];
  /** Columns from the left that stay in sight, besides the headings. @defaultValue 0 */
  readonly fixedColumns?: number;
  /** For each column the words from which a cell below its heading is chosen; a spreadsheet offers them. */
  readonly choices?: readonly (readonly string[] | undefined)[];
}

/**
 * A workbook (Office Open XML, ECMA-376-1) with one sheet a table: numbers as numbers, texts as texts, headings that stay
 * in sight. Acting characters in texts are shown; no cell of it is a formula. The same sheets give the same bytes.
 */
export async function writeWorkbook(sheets: readonly SheetToWrite[]): Promise<Uint8Array> {
  const names = sheets.map(({ name }) => name);
  const parts: readonly (readonly [name: string, xml: string])[] = [
    [CONTENT_TYPES, contentTypes(sheets.length)],
    ["_rels/.rels", PACKAGE_RELATIONS],
    ["xl/workbook.xml", workbookXml(names)],
    ["xl/_rels/workbook.xml.rels", workbookRelations(sheets.length)],
    ["xl/styles.xml", STYLES],
    ...sheets.map((sheet, index) => [`xl/worksheets/sheet${index + 1}.xml`, worksheetXml(sheet)] as const),
  ];
  const files = parts.map(([name, xml]) => ({ name, bytes: new TextEncoder().encode(xml) }));
  return zip(files, WORKBOOK_RULES);
}
