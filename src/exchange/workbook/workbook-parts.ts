import { unzip, type ZipRules } from "../../base/zip/index.ts";
import { notReadable, SAVE_AGAIN, unsafe } from "./refusals.ts";
import { SHEET_LIMITS } from "./sheet.ts";

/** Names as spreadsheet programs write them: folders, plain ASCII, nothing that climbs. */
const PART_NAME =
  /^(?!.*\.\.)[A-Za-z0-9_[\]-][A-Za-z0-9_[\] .-]*(\/[A-Za-z0-9_[\].-][A-Za-z0-9_[\] .-]*){0,6}$/;

/** What a workbook may look like. */
export const WORKBOOK_RULES: ZipRules = {
  noun: "workbook",
  limits: {
    zipBytes: SHEET_LIMITS.bytes,
    files: 256,
    fileBytes: 16 * 1024 * 1024,
    unpackedBytes: 32 * 1024 * 1024,
    ratio: 200,
  },
  isSafeName: (name) => name.length <= 128 && PART_NAME.test(name),
  extras: true,
  refuse: (reason, message) =>
    reason === "too-large" || reason === "unsafe-name"
      ? unsafe(message, SAVE_AGAIN, { reason })
      : notReadable(message, SAVE_AGAIN, { reason }),
};

/** Parts that act or reach outside, by their names (ECMA-376; macros and controls by common practice). */
const ACTING_PARTS: readonly (readonly [name: RegExp, what: string])[] = [
  [/vbaproject|macrosheets|\.vba/i, "macros"],
  [/^xl\/externallinks\//i, "links to other workbooks"],
  [/^xl\/(connections\.xml|querytables\/|webextensions\/)/i, "connections to data elsewhere"],
  [/^xl\/(embeddings|activex|ctrlprops)\//i, "embedded objects"],
];

/** A compound file: an encrypted workbook, or one of the old binary kind. */
const COMPOUND = [0xd0, 0xcf, 0x11, 0xe0];

/** Begins a file of the OpenDocument kind (ODF 1.3 part 2, 3.3). */
const OPEN_DOCUMENT = "mimetypeapplication/vnd.oasis.opendocument";

/** The XML parts of a workbook by name, when nothing in it acts. */
export async function workbookParts(bytes: Uint8Array): Promise<ReadonlyMap<string, string>> {
  if (COMPOUND.every((byte, index) => bytes[index] === byte)) {
    throw notReadable(
      "The workbook is locked with a password, or of an old binary kind (.xls).",
      "Save it without a password as a workbook of the present kind (.xlsx), or as CSV.",
    );
  }
  if (Buffer.from(bytes.subarray(0, 80)).toString("latin1").includes(OPEN_DOCUMENT)) {
    throw notReadable(
      "The file is a spreadsheet of another kind (OpenDocument).",
      "Save it as a workbook (.xlsx), or as CSV.",
    );
  }
  const names: string[] = [];
  const files = await unzip(bytes, WORKBOOK_RULES, (name) => {
    names.push(name);
    checkPart(name);
    return /\.(xml|rels)$/i.test(name);
  });
  if (!names.includes("[Content_Types].xml")) {
    throw notReadable("The file is a zip, but no workbook (.xlsx).", SAVE_AGAIN);
  }
  return new Map(files.map((file) => [file.name, xmlText(file.name, file.bytes)]));
}

function checkPart(name: string): void {
  const acting = ACTING_PARTS.find(([pattern]) => pattern.test(name));
  if (acting === undefined) return;
  throw unsafe(`The workbook holds ${acting[1]} ('${name}'); a table needs none.`, SAVE_AGAIN, {
    part: name,
  });
}

function xmlText(name: string, bytes: Uint8Array): string {
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw notReadable(`'${name}' in the workbook is no text in UTF-8.`, SAVE_AGAIN);
  }
  if (/<!(DOCTYPE|ENTITY)/i.test(text)) {
    throw unsafe(`'${name}' in the workbook declares entities; they could swell without limit.`, SAVE_AGAIN);
  }
  return text;
}
