export { withStore } from "./faults.ts";
export type { FileStore, StoredItem } from "./file-store.ts";
export { type History, type HistoryFilter, type HistoryItem, history } from "./history.ts";
export { type CreateLogbookOptions, createLogbook, type Logbook, openLogbook } from "./logbook.ts";
export type { LogbookFindingCode } from "./logbook-findings.ts";
export { type EntryQuery, type ReadEntry, readAttachment, readEntry } from "./read-entry.ts";
export {
  type AttachedFile,
  type KeptDocument,
  type RecordedEntry,
  type RecordOptions,
  record,
  type SigningKey,
} from "./record.ts";
export { isRecord, type LogbookRecord, REASONS } from "./records.ts";
export { folderStore } from "./stores/folder-store.ts";
export { memoryStore } from "./stores/memory-store.ts";
