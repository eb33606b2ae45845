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
export { type LoadedMap, loadFieldMap, type MapNotice } from "./load-map.ts";
export { type ExportProblem, type ReadExport, type ReadExportOptions, readExport } from "./read-export.ts";
export { type StartedMap, startFieldMap } from "./start-map.ts";
export {
  type LeftField,
  type WriteExportOptions,
  type WrittenExport,
  type WrittenPlace,
  writeExport,
} from "./write-export.ts";
