export { type Account, type AccountedField, exportPlaceWords, type UnknownValue } from "./account.ts";
export {
  type CheckMapOptions,
  checkFieldMap,
  type MapCheck,
  type MapFinding,
  type SampleExport,
} from "./check-map.ts";
export { octavesFromQ, qFromOctaves } from "./conversions/index.ts";
export { MAX_EXPORT_BYTES } from "./encoding.ts";
export type { Origin } from "./interpretation.ts";
export { type FieldParts, type LoadedMap, loadFieldMap, type MapNotice } from "./load-map.ts";
export type { PathExpression } from "./path-expression.ts";
export { type ExportProblem, type ReadExport, type ReadExportOptions, readExport } from "./read-export.ts";
export type { ProposedRule } from "./starting/propose-rules.ts";
export { type OpenPlace, type StartedMap, startFieldMap } from "./starting/start-map.ts";
export type { LeftField } from "./writing/left.ts";
export type { AddedItem, RemovedItem, SilentValue, WrittenPlace } from "./writing/told.ts";
export { type WriteExportOptions, type WrittenExport, writeExport } from "./writing/write-export.ts";
