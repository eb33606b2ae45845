import { parse } from "csv-parse/sync";
import { BoothkeepError } from "../../base/errors/index.ts";
import { type Encoding, textOfBytes, withoutGuard } from "../../base/text/index.ts";
import { notReadable } from "./refusals.ts";
import { SHEET_LIMITS, type Sheet, type SheetRow } from "./sheet.ts";

/** How a CSV file is written. */
export interface ReadCsvOptions {
  /** @defaultValue "," */
  readonly separator?: "," | ";" | "\t";
  /** @defaultValue "," where cells are separated by semicolons, else "." */
  readonly decimal?: "." | ",";
  /** A byte order mark decides; else this. @defaultValue "utf-8" */
  readonly encoding?: Encoding;
}

/**
 * Reads CSV (RFC 4180). Apostrophes that guard a text from being run as a formula are taken off again. Rows count as a
 * spreadsheet counts them.
 *
 * @throws BoothkeepError table.wrong-encoding, table.not-readable
 */
export function readCsv(bytes: Uint8Array, options: ReadCsvOptions = {}): Sheet {
  const { separator = ",", encoding = "utf-8" } = options;
  checkSize(bytes);
  const { text } = textOfBytes(bytes, encoding, wrongEncoding);
  const rows = recordsOf(text, separator).flatMap((cells, index): SheetRow[] => {
    const filled = cells.map((cell) => (cell === "" ? undefined : withoutGuard(cell)));
    return filled.every((cell) => cell === undefined) ? [] : [{ number: index + 1, cells: filled }];
  });
  checkSeparator(rows, separator);
  return { rows, decimal: options.decimal ?? (separator === ";" ? "," : ".") };
}

function checkSize(bytes: Uint8Array): void {
  if (bytes.length <= SHEET_LIMITS.bytes) return;
  throw notReadable(
    `The table has ${bytes.length} bytes; none is that large.`,
    `Name a table of at most ${SHEET_LIMITS.bytes / 1024 / 1024} MiB.`,
    { bytes: bytes.length, maxBytes: SHEET_LIMITS.bytes },
  );
}

function wrongEncoding(encoding: Encoding, cause: unknown): BoothkeepError {
  return new BoothkeepError("table.wrong-encoding", `The table is not text in ${encoding.toUpperCase()}.`, {
    next: "Save it as CSV in UTF-8, or name its encoding with --encoding (utf-8, utf-16le, utf-16be, latin-1).",
    cause,
  });
}

function recordsOf(text: string, separator: string): string[][] {
  if (text.includes("\0")) {
    throw notReadable(
      "The table holds zero bytes: it is no text.",
      "Name a CSV file, or a workbook (.xlsx).",
    );
  }
  let records: string[][];
  try {
    records = parse(text, {
      delimiter: separator,
      record_delimiter: ["\r\n", "\n", "\r"],
      relax_column_count: true,
      to: SHEET_LIMITS.rows + 1,
    });
  } catch (cause) {
    const { lines, message } = cause as { lines?: number; message?: string };
    const words = String(message).replace(/\s+/g, " ").slice(0, 120);
    throw notReadable(
      `The table is no CSV${lines === undefined ? "" : ` (near line ${lines})`}: ${words}.`,
      "Save it again as CSV from a spreadsheet program, or mend the quotes at that line.",
    );
  }
  const widest = Math.max(0, ...records.map((record) => record.length));
  if (records.length <= SHEET_LIMITS.rows && widest <= SHEET_LIMITS.columns) return records;
  throw notReadable(
    `The table has more than ${SHEET_LIMITS.rows} rows or ${SHEET_LIMITS.columns} columns; none is that large.`,
    "Keep the rows and columns of one screen.",
  );
}

const SEPARATORS = [
  [";", "semicolons", "semicolon"],
  [",", "commas", "comma"],
  ["\t", "tabs", "tab"],
] as const;

/** A heading in one cell that holds another separator was saved in another form. */
function checkSeparator([header]: readonly SheetRow[], separator: string): void {
  const only = header?.cells.filter((cell) => cell !== undefined);
  if (only?.length !== 1 || typeof only[0] !== "string") return;
  const heading = only[0];
  const other = SEPARATORS.find(([sign]) => sign !== separator && heading.includes(sign));
  if (other === undefined) return;
  const [, words, option] = other;
  throw notReadable(
    `The cells of the table are separated by ${words}.`,
    option === "semicolon"
      ? "Say so with '--separator semicolon'; decimal commas then count as decimal signs unless '--decimal point' says otherwise."
      : `Say so with '--separator ${option}'.`,
  );
}
