export { type CsvCell, type CsvForm, csvCell, csvText, guarded, withoutGuard } from "./csv.ts";
export { harmless, linesOf } from "./harmless.ts";
