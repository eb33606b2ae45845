export type { TableCell } from "./cells.ts";
export { TABLE_NAMES, type TableName } from "./layouts/index.ts";
export { type ChannelAgainstXCurve, measuredAgainstXCurve } from "./measured/against-x-curve.ts";
export {
  type MeasuringCircumstances,
  type TakenChannel,
  type TakenMeasurement,
  takeMeasurement,
} from "./measured/calibrate.ts";
export { FREQUENCY_HEADING, IN_BAND_ROW, LEVEL_ROW, POSITION_HEADINGS } from "./measured/headings.ts";
export { type MeasuredColumn, type ReadMeasurement, readMeasurement } from "./measured/measurement.ts";
export { type ReadPositions, readPositions } from "./measured/positions.ts";
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
