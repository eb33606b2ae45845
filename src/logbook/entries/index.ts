export { type BindOptions, type BindReport, type BoundSite, bindLogbook } from "./bind.ts";
export { withStore } from "./faults.ts";
export type { FilesChecked } from "./file-checks.ts";
export type { FileStore, StoredItem } from "./file-store.ts";
export {
  type FindHit,
  type FindPlace,
  type FindQuery,
  type FindResult,
  type FindValue,
  findEntries,
  type Scalar,
} from "./find.ts";
export { type HealReport, healLogbook } from "./heal.ts";
export { type History, type HistoryFilter, type HistoryItem, history } from "./history.ts";
export { type CreateLogbookOptions, createLogbook, type Logbook, openLogbook } from "./logbook.ts";
export type { LogbookFindingCode } from "./logbook-findings.ts";
export { type LogbookScreen, logbookScreens, type ReadScreen } from "./logbook-screens.ts";
export { type LooseEntry, memoryLogbook } from "./memory-logbook.ts";
export { type MergeOptions, type MergeReport, mergeLogbook } from "./merge.ts";
export { type LogbookPolicy, readPolicy, type SetPolicyOptions, setPolicy } from "./policy.ts";
export {
  type EntryQuery,
  type FoundEntry,
  findEntry,
  type ReadEntry,
  readAttachment,
  readEntry,
} from "./read-entry.ts";
export {
  type AttachedFile,
  type KeptDocument,
  type RecordedEntry,
  type RecordOptions,
  record,
  type SigningKey,
} from "./record.ts";
export { isRecord, type LogbookRecord, REASONS } from "./records.ts";
export { signEntry } from "./sign-entry.ts";
export { judgeSignatures, requireRestorable } from "./signatures.ts";
export { folderStore } from "./stores/folder-store.ts";
export { memoryStore } from "./stores/memory-store.ts";
export { type EntryName, type VerifyOptions, type VerifyReport, verifyLogbook } from "./verify.ts";
export { type WithdrawOptions, withdraw } from "./withdraw.ts";
