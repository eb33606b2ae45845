/*
 * The parts of a workbook besides its sheets, as little as ECMA-376-1 (Office Open XML) asks for.
 */

const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/** The namespace of sheets, styles and the workbook. */
export const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

/** The part that says of what sort the others are. */
export const CONTENT_TYPES = "[Content_Types].xml";

export function contentTypes(sheets: number): string {
  const part = (name: string, kind: string) =>
    `<Override PartName="/xl/${name}.xml" ContentType="${TYPE}.${kind}+xml"/>`;
  return xmlPart(
    `<Types xmlns="${PACKAGE}/content-types">`,
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>',
    part("workbook", "sheet.main"),
    part("styles", "styles"),
    ...counted(sheets).map((k) => part(`worksheets/sheet${k}`, "worksheet")),
    "</Types>",
  );
}

export const PACKAGE_RELATIONS = relations([["officeDocument", "xl/workbook.xml"]]);

export function workbookRelations(sheets: number): string {
  return relations([
    ...counted(sheets).map((k) => ["worksheet", `worksheets/sheet${k}.xml`] as const),
    ["styles", "styles.xml"],
  ]);
}

export function workbookXml(names: readonly string[]): string {
  return xmlPart(
    `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>`,
    ...names.map((name, k) => `<sheet name="${xmlText(name)}" sheetId="${k + 1}" r:id="r${k + 1}"/>`),
    "</sheets></workbook>",
  );
}

/** Numbers of the cell styles in {@link STYLES}. */
export const STYLE = { plain: 0, heading: 1, text: 2 } as const;

/** Height of a line of the font in points. */
export const LINE_PT = 13;

/** Three looks of a cell: plain, heading (bold, wrapped), text (a spreadsheet takes nothing typed there for a date). */
export const STYLES = xmlPart(
  `<styleSheet xmlns="${MAIN}">`,
  '<fonts count="2"><font><sz val="10"/><name val="Arial"/></font><font><b/><sz val="10"/><name val="Arial"/></font></fonts>',
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>',
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>',
  '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>',
  '<cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>',
  '<xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1" applyAlignment="1"><alignment vertical="top" wrapText="1"/></xf>',
  '<xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>',
  '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>',
  "</styleSheet>",
);

/** A part of XML. */
export function xmlPart(...pieces: readonly string[]): string {
  return DECLARATION + pieces.join("");
}

/** A text inside an element or an attribute. */
export function xmlText(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

function relations(targets: readonly (readonly [kind: string, target: string])[]): string {
  return xmlPart(
    `<Relationships xmlns="${PACKAGE}/relationships">`,
    ...targets.map(
      ([kind, target], k) => `<Relationship Id="r${k + 1}" Type="${OFFICE}/${kind}" Target="${target}"/>`,
    ),
    "</Relationships>",
  );
}

function counted(count: number): readonly number[] {
  return Array.from({ length: count }, (_, k) => k + 1);
}
