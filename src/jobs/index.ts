export { type AppliedTables, type ApplyTablesOptions, applyTables } from "./apply-tables.ts";
export {
  type AuditGround,
  auditLogbook,
  rowsToKeep,
  type ScreenInAudit,
  screensToAudit,
} from "./audit/audit-logbook.ts";
export { type CensusOptions, censusOfLogbook } from "./census-of-logbook.ts";
export { comparedSide } from "./compared-side.ts";
export {
  type ConfirmedLoading,
  type ConfirmLoadingOptions,
  confirmLoading,
} from "./confirm/confirm-loading.ts";
export { type LoadedProposal, proposalToBeLoaded } from "./confirm/proposal-to-be-loaded.ts";
export { entryToBeLoaded, type ToBeLoaded } from "./confirm/to-be-loaded.ts";
export { type DriftOptions, driftInLogbook } from "./drift/drift-in-logbook.ts";
export { type Drift, DriftJob, type DriftPart, type ScreenToHold } from "./drift/drift-job.ts";
export type { JobOptions } from "./job-options.ts";
export type { FailedScreen, Failure } from "./migrate/many/failure.ts";
export {
  crewOfOne,
  type MigratedScreens,
  type MigrateScreensOptions,
  type MigrationCrew,
  type MigrationStage,
  migrateScreens,
  type StageProgress,
} from "./migrate/many/migrate-screens.ts";
export {
  type OpenDecisions,
  type OpenDecisionsOptions,
  openDecisions,
} from "./migrate/many/open-decisions.ts";
export type {
  MigrationRecords,
  ScreenInput,
  ScreenRecord,
  WrittenState,
} from "./migrate/many/screen-record.ts";
export type { ManyState, ScreenResult } from "./migrate/many/screen-result.ts";
export {
  type AnswersFor,
  type ManyGround,
  type ManySources,
  type SettledScreen,
  type Settlement,
  type Survey,
  settleScreen,
  surveyScreen,
} from "./migrate/many/screen-work.ts";
export { type MigrationState, migrateScreen, type ScreenMigration } from "./migrate/migrate-screen.ts";
export {
  FINAL_PAPERS,
  type MigratedScreen,
  migrationPapers,
  namesOnPaper,
  paperPrefix,
  setHash,
} from "./migrate/migration-papers.ts";
export { errorWords } from "./migrate/migration-words.ts";
export { namingAnswers } from "./migrate/naming-answers.ts";
export { screenOnStandard } from "./on-standard.ts";
export type { OddVersions } from "./propose/followed-versions.ts";
export {
  type FleetPlace,
  type ProposalRound,
  type ProposalRoundOptions,
  type ProposalStore,
  type ProposedRound,
  type ProposeRoundOptions,
  proposalRound,
  proposeRound,
} from "./propose/propose-round.ts";
export {
  type ProposedConfiguration,
  type ProposeOptions,
  proposalBasis,
  proposeStandard,
} from "./propose/propose-standard.ts";
export { type ProveDocumentsOptions, proveDocuments } from "./prove-documents.ts";
export { appliedStandards, PROPOSAL_ATTACHMENT, STANDARD_ATTACHMENT } from "./screens/applied-standards.ts";
export { earlierConfiguration } from "./screens/earlier-configuration.ts";
export { type FleetScreen, fleetScreen, fleetScreenIn } from "./screens/fleet-screen.ts";
export {
  type LoadedScreen,
  type LoadOptions,
  loadScreens,
  type UnreadScreen,
} from "./screens/load-screens.ts";
export { readScreenHistory, type ScreenHistory } from "./screens/screen-history.ts";
export {
  type VisitComparisons,
  type VisitedDocuments,
  type VisitedScreen,
  visitComparisons,
} from "./visit.ts";
