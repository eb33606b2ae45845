export { appliedStandards, PROPOSAL_ATTACHMENT, STANDARD_ATTACHMENT } from "./applied-standards.ts";
export { type AppliedTables, type ApplyTablesOptions, applyTables } from "./apply-tables.ts";
export { type AuditGround, auditLogbook, type ScreenInAudit, screensToAudit } from "./audit-logbook.ts";
export { comparedSide } from "./compared-side.ts";
export {
  type ConfirmedLoading,
  type ConfirmLoadingOptions,
  confirmLoading,
} from "./confirm/confirm-loading.ts";
export { type LoadedProposal, proposalToBeLoaded } from "./confirm/proposal-to-be-loaded.ts";
export { entryToBeLoaded, type ToBeLoaded } from "./confirm/to-be-loaded.ts";
export { type Drift, DriftJob, type DriftPart, type ScreenToHold, type UnreadScreen } from "./drift.ts";
export { earlierConfiguration } from "./earlier-configuration.ts";
export {
  type MigrationState,
  migrateScreen,
  type ScreenMigration,
} from "./migrate-screen.ts";
export { screenOnStandard } from "./on-standard.ts";
export {
  type ProposedConfiguration,
  type ProposeOptions,
  proposalBasis,
  proposeStandard,
} from "./propose-standard.ts";
export { readScreenHistory, type ScreenHistory } from "./screen-history.ts";
export {
  type VisitComparisons,
  type VisitedDocuments,
  type VisitedScreen,
  visitComparisons,
} from "./visit.ts";
