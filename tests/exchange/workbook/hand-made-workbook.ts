import { type HandMade, handMadeZip } from "../../logbook/pack/support.ts";

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

/** Parts of a workbook that a test writes by itself; what is left out is plain. */
export interface HandMadeWorkbook {
  /** What stands in `sheetData`. */
  readonly rows?: string;
  /** What stands after `sheetData`. */
  readonly after?: string;
  readonly shared?: string;
  readonly styles?: string;
  readonly contentType?: string;
  /** Further relations of the workbook. */
  readonly relations?: string;
  /** What stands before the root element of the sheet. */
  readonly prolog?: string;
  readonly sheet?: string;
  readonly more?: readonly HandMade[];
  readonly without?: readonly string[];
}

/** A workbook of one sheet, "outputs", put together part by part (ECMA-376). */
export function handMadeWorkbook(parts: HandMadeWorkbook = {}): Uint8Array {
  const {
    rows = '<row r="1"><c r="A1" t="inlineStr"><is><t>Output</t></is></c></row>',
    contentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
  } = parts;
  const files: HandMade[] = [
    {
      name: "[Content_Types].xml",
      content: `<Types xmlns="${PACKAGE}/content-types"><Override PartName="/xl/workbook.xml" ContentType="${contentType}"/></Types>`,
    },
    {
      name: "_rels/.rels",
      content: `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="r1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    },
    {
      name: "xl/workbook.xml",
      content: `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="outputs" sheetId="1" r:id="s1"/></sheets></workbook>`,
    },
    {
      name: "xl/_rels/workbook.xml.rels",
      content: `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="s1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="s2" Type="${OFFICE}/sharedStrings" Target="/xl/sharedStrings.xml"/><Relationship Id="s3" Type="${OFFICE}/styles" Target="styles.xml"/>${parts.relations ?? ""}</Relationships>`,
    },
    {
      name: "xl/worksheets/sheet1.xml",
      content: `${parts.prolog ?? '<?xml version="1.0" encoding="UTF-8"?>'}${parts.sheet ?? `<worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData>${parts.after ?? ""}</worksheet>`}`,
    },
    { name: "xl/sharedStrings.xml", content: `<sst xmlns="${MAIN}">${parts.shared ?? ""}</sst>` },
    { name: "xl/styles.xml", content: `<styleSheet xmlns="${MAIN}">${parts.styles ?? ""}</styleSheet>` },
    ...(parts.more ?? []),
  ];
  return handMadeZip(files.filter(({ name }) => !parts.without?.includes(String(name))));
}
