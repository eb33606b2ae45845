import { extname } from "node:path";
import { Option } from "commander";
import { BoothkeepError } from "../src/public/boothkeep.ts";
import type { Encoding, Sheet } from "../src/public/exchange.ts";
import type { Context } from "./context.ts";
import { readInput } from "./files.ts";

/** How CSV files are written. */
export interface CsvOptions {
  readonly separator?: keyof typeof SEPARATORS;
  readonly decimal?: keyof typeof DECIMALS;
}

export interface CsvReadingOptions extends CsvOptions {
  readonly encoding?: Encoding;
}

const SEPARATORS = { comma: ",", semicolon: ";", tab: "\t" } as const;
const DECIMALS = { point: ".", comma: "," } as const;

export function separatorOption(): Option {
  return new Option("--separator <sign>", "what separates the cells of a CSV file (default: comma)").choices(
    Object.keys(SEPARATORS),
  );
}

export function decimalOption(): Option {
  return new Option(
    "--decimal <sign>",
    "decimal sign of a CSV file (default: point, with semicolons comma)",
  ).choices(Object.keys(DECIMALS));
}

export function encodingOption(): Option {
  return new Option(
    "--encoding <name>",
    "encoding of a CSV file without byte order mark (default: utf-8)",
  ).choices(["utf-8", "utf-16le", "utf-16be", "latin-1"]);
}

/** The form of CSV that the options name. */
export function csvForm({ separator = "comma", decimal }: CsvOptions) {
  const sign = decimal ?? (separator === "semicolon" ? "comma" : "point");
  return { separator: SEPARATORS[separator], decimal: DECIMALS[sign] } as const;
}

/** Whether a name is that of a workbook. */
export function isWorkbookName(file: string): boolean {
  return /^\.(xlsx|xlsm|xls|ods)$/i.test(extname(file));
}

/**
 * The sheets of a file: those of a workbook, or the one of a CSV file.
 * @throws BoothkeepError as readWorkbook and readCsv, with the file's name
 */
export async function readSheets(
  file: string,
  options: CsvReadingOptions,
  context: Context,
): Promise<readonly Sheet[]> {
  const { readCsv, readWorkbook } = await import("../src/public/exchange.ts");
  const bytes = readInput(file, context.cwd);
  const isZip = bytes[0] === 0x50 && bytes[1] === 0x4b;
  try {
    if (isZip || isWorkbookName(file)) return await readWorkbook(bytes);
    const { encoding } = options;
    return [readCsv(bytes, { ...csvForm(options), ...(encoding === undefined ? {} : { encoding }) })];
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}
