export {
  type CheckEntry,
  type CheckedEntry,
  entryCheck,
  isRefusal,
  refusalError,
  subjectRefusal,
} from "./check-entry.ts";
export { type StandingGround, standingGround } from "./ground.ts";
export { type JudgedScreen, judgeScreen } from "./judge-screen.ts";
export type { LogbookPolicy } from "./policy.ts";
export { CONFIRMATION_ATTACHMENT, TICKED_SHEET_ATTACHMENT } from "./read-back.ts";
export { judgeSignatures } from "./signatures.ts";
export {
  entryWords,
  type HistoryItem,
  type NamedEntry,
  nameOf,
  type ReadBack,
  type Refusal,
  type SignatureStanding,
  type Standing,
  type UncountedWithdrawal,
  type Unseen,
  type UnseenRecord,
} from "./standing.ts";
export { unseenWords } from "./unseen-words.ts";
