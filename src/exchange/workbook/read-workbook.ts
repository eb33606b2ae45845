import { notReadable, SAVE_AGAIN, unsafe } from "./refusals.ts";
import { sharedTexts } from "./shared-texts.ts";
import type { Sheet } from "./sheet.ts";
import { dateStyles } from "./styles.ts";
import { workbookParts } from "./workbook-parts.ts";
import { readWorksheet } from "./worksheet.ts";
import { attribute, children, rootOf, type XmlElement } from "./xml.ts";

/**
 * The sheets of a workbook (Office Open XML, ECMA-376-1) with what stands in their cells. Formulas, dates and errors are
 * told as such and never taken for values. Nothing outside the file is ever looked at.
 *
 * @throws BoothkeepError table.not-readable, table.unsafe
 */
export async function readWorkbook(bytes: Uint8Array): Promise<readonly Sheet[]> {
  const parts = await workbookParts(bytes);
  const main = relationsOf(parts, "").find(({ type }) => type.endsWith("/officeDocument"));
  if (main === undefined) throw notReadable("The file is a zip, but no workbook (.xlsx).", SAVE_AGAIN);
  refuseMacros(parts, main.target);
  const workbook = rootOf(main.target, partOf(parts, main.target), "workbook");
  const relations = relationsOf(parts, main.target);
  const find = (kind: string) => relations.find(({ type }) => type.endsWith(`/${kind}`))?.target;
  const [texts, styles] = [find("sharedStrings"), find("styles")];
  const shared = texts === undefined ? [] : sharedTexts(rootOf(texts, partOf(parts, texts), "sst"));
  const dates = styles === undefined ? [] : dateStyles(rootOf(styles, partOf(parts, styles), "styleSheet"));
  return sheetsOf(workbook).map(({ name, relation }) => {
    const part = relations.find(({ id }) => id === relation)?.target;
    if (part === undefined) throw notReadable(`The sheet '${name}' of the workbook is missing.`, SAVE_AGAIN);
    const worksheet = rootOf(part, partOf(parts, part), "worksheet");
    return { name, rows: readWorksheet(worksheet, { name, shared, dates }), decimal: "." };
  });
}

function sheetsOf(workbook: XmlElement): { name: string; relation: string | undefined }[] {
  return children(children(workbook, "sheets")[0], "sheet").map((sheet) => ({
    name: attribute(sheet, "name") ?? "",
    relation: attribute(sheet, "id"),
  }));
}

interface Relation {
  readonly id: string;
  readonly type: string;
  /** Name of the part. */
  readonly target: string;
}

/** What a part refers to (ECMA-376-2, relationships); "" is the workbook file itself. */
function relationsOf(parts: ReadonlyMap<string, string>, part: string): Relation[] {
  const cut = part.lastIndexOf("/") + 1;
  const [folder, file] = [part.slice(0, cut), part.slice(cut)];
  const name = `${folder}_rels/${file}.rels`;
  return children(rootOf(name, partOf(parts, name), "Relationships"), "Relationship").map((relation) => {
    if (attribute(relation, "TargetMode") === "External") {
      throw unsafe("The workbook refers to something outside itself.", SAVE_AGAIN, {
        target: attribute(relation, "Target") ?? "",
      });
    }
    const target = attribute(relation, "Target") ?? "";
    return {
      id: attribute(relation, "Id") ?? "",
      type: attribute(relation, "Type") ?? "",
      target: target.startsWith("/") ? target.slice(1) : `${folder}${target.replace(/^\.\//, "")}`,
    };
  });
}

function partOf(parts: ReadonlyMap<string, string>, name: string): string {
  const part = parts.get(name);
  if (part === undefined) throw notReadable(`'${name}' is missing in the workbook.`, SAVE_AGAIN);
  return part;
}

function refuseMacros(parts: ReadonlyMap<string, string>, main: string): void {
  const types = rootOf("[Content_Types].xml", partOf(parts, "[Content_Types].xml"), "Types");
  const type = children(types, "Override").find((item) => attribute(item, "PartName") === `/${main}`);
  if (/macroEnabled/i.test(attribute(type, "ContentType") ?? "")) {
    throw unsafe("The workbook may hold macros (.xlsm); a table needs none.", SAVE_AGAIN);
  }
}
