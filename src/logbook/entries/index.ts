export {
  type CreateLogbookOptions,
  createLogbook,
  type FileStore,
  folderStore,
  isRecord,
  type KeptDocument,
  type Logbook,
  type LogbookFindingCode,
  type LogbookRecord,
  memoryStore,
  openLogbook,
  REASONS,
  type SigningKey,
  type StoredItem,
  withStore,
} from "../medium/index.ts";
export {
  type CheckedEntry,
  CONFIRMATION_ATTACHMENT,
  entryWords,
  type HistoryItem,
  isRefusal,
  judgeSignatures,
  type LogbookPolicy,
  type NamedEntry,
  nameOf,
  type ReadBack,
  type Refusal,
  refusalError,
  type SignatureStanding,
  type Standing,
  TICKED_SHEET_ATTACHMENT,
  type Unseen,
  type UnseenRecord,
  unseenWords,
} from "../standing/index.ts";
export { type BindOptions, type BindReport, type BoundSite, bindLogbook } from "./bind.ts";
export type { FilesChecked } from "./file-checks.ts";
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
export { type HealHeaderOptions, openAndHealHeader } from "./heal-header.ts";
export { type History, type HistoryFilter, history, type ScreenNote } from "./history.ts";
export { keptProfile, profileOfEntry } from "./kept-profile.ts";
export {
  type LogbookScreen,
  logbookScreens,
  type ReadScreen,
  type ScreensFilter,
} from "./logbook-screens.ts";
export { type LooseEntry, memoryLogbook } from "./memory-logbook.ts";
export { type Fork, type MergeOptions, type MergeReport, mergeLogbook } from "./merge.ts";
export { type OpenScreen, openScreen } from "./open-screen.ts";
export { readPolicy, type SetPolicyOptions, setPolicy } from "./policy.ts";
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
  FIELD_MAP_ATTACHMENT,
  PROFILE_ATTACHMENT,
  type RecordedEntry,
  type RecordOptions,
  record,
  type SharedDocumentFiles,
} from "./record.ts";
export { signEntry } from "./sign-entry.ts";
export { requireRestorable } from "./signatures.ts";
export { type EntryName, type VerifyOptions, type VerifyReport, verifyLogbook } from "./verify.ts";
export { type WithdrawOptions, withdraw } from "./withdraw.ts";
