export { type ReadCsvOptions, readCsv } from "./read-csv.ts";
export { readWorkbook } from "./read-workbook.ts";
export {
  cellName,
  isUnusable,
  SHEET_LIMITS,
  type Sheet,
  type SheetCell,
  type SheetRow,
  type UnusableCell,
} from "./sheet.ts";
export { type SheetToWrite, writeWorkbook } from "./write-workbook.ts";
