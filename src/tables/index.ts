export { TABLE_NAMES, type TableName } from "./layouts/index.ts";
export type { MovedNumber } from "./taking/check-numbers.ts";
export type { TablePlace, TableProblem } from "./taking/problem.ts";
export {
  type TableFile,
  type TakenTable,
  type TakenTables,
  type TakeTablesOptions,
  takeTables,
} from "./taking/take-tables.ts";
export { type ConfigurationTable, type TablesOfOptions, tablesOf } from "./write-tables.ts";
