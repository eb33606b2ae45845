export { boundContent } from "./bound-content.ts";
export { boundBytes, readBound } from "./bound-file.ts";
export { boundMark, boundMarkState, markOfBound, readBoundMark } from "./bound-mark.ts";
export { CanonicalSubjects } from "./canonical-subjects.ts";
export {
  configurationResolver,
  type ReferenceShelf,
  type ResolveConfiguration,
  referenceShelf,
} from "./configurations.ts";
export {
  inFolder,
  keepFile,
  keepMark,
  keepRootFile,
  removeIfThere,
  removeMarkOf,
  removeMarks,
  setAside,
  sweepUnfinished,
} from "./durable-file.ts";
export { withStore } from "./faults.ts";
export { type FileCensus, takeCensus } from "./file-census.ts";
export { type FileStore, faultCode, type StoredItem } from "./file-store.ts";
export { packLines, unpack, unpackLines } from "./gzip-lines.ts";
export {
  keepPart,
  keepRecordFile,
  markOrFinding,
  requireFit,
  type SigningKey,
  signatureOf,
} from "./keep-record.ts";
export { lineToKeep } from "./keeping.ts";
export type { KeptDocument } from "./kept-document.ts";
export { isRecordStem, type KeptFile, readFolder, readLines, readTolerantly } from "./kept-files.ts";
export * from "./layout.ts";
export {
  type CreateLogbookOptions,
  createLogbook,
  type Logbook,
  openLogbook,
  requireDateTime,
} from "./logbook.ts";
export { type LogbookFindingCode, logbookFinding } from "./logbook-findings.ts";
export { PartShelf } from "./parts.ts";
export { readPolicyFile } from "./policy-file.ts";
export {
  FORMAT_VERSION,
  isRecord,
  type KeptConfiguration,
  type LogbookRecord,
  REASONS,
  recordId,
  recordLine,
  wholeLine,
} from "./records.ts";
export { keepReference, readReference, readReferences } from "./references.ts";
export { Register } from "./register.ts";
export { type EntryRecords, inOrder, numberedBeyond, screenEntries } from "./screen-entries.ts";
export { findPlaces, type PlacesFilter, screenPlaces } from "./screen-places.ts";
export { anyRecord, placeOf, readScreen, type ScreenPlace, type ScreenRecords } from "./screen-records.ts";
export { SharedDocuments } from "./shared-documents.ts";
export { folderStore } from "./stores/folder-store.ts";
export { memoryStore } from "./stores/memory-store.ts";
export { readStrayRecord } from "./stray-records.ts";
