import { BoothkeepError } from "../../base/errors/index.ts";

/** A file that is no table. */
export function notReadable(
  message: string,
  next: string,
  data: Readonly<Record<string, unknown>> = {},
): BoothkeepError {
  return new BoothkeepError("table.not-readable", message, { next, data });
}

/** A file that holds what no table needs. */
export function unsafe(
  message: string,
  next: string,
  data: Readonly<Record<string, unknown>> = {},
): BoothkeepError {
  return new BoothkeepError("table.unsafe", message, { next, data });
}

export const SAVE_AGAIN =
  "Open it in a spreadsheet program, keep the cells alone, and save it again as a plain workbook (.xlsx) or as CSV.";
