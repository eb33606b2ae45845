/** The short way: read, validate, compare, migrate, prove, record, print. What goes deeper is behind the door of its part. */
export {
  BoothkeepError,
  ERROR_CATALOGUE,
  type ErrorCode,
  type ErrorOptions,
  type ErrorPlace,
  EXIT_CODE,
} from "../base/errors/index.ts";
export {
  type Finding,
  type FindingKind,
  type FindingNumbers,
  type Place,
  SEVERITIES,
  type Severity,
} from "../base/findings/index.ts";
export { type CompareOptions, compareConfigurations } from "../diff/compare/index.ts";
export { type MigrationState, migrateScreen, type ScreenMigration } from "../jobs/index.ts";
export {
  type EntryQuery,
  type History,
  type HistoryFilter,
  history,
  type ReadEntry,
  type RecordedEntry,
  type RecordOptions,
  readEntry,
  record,
} from "../logbook/entries/index.ts";
export {
  type CreateLogbookOptions,
  createLogbook,
  type FileStore,
  folderStore,
  type Logbook,
  openLogbook,
} from "../logbook/medium/index.ts";
export {
  type AskingPlan,
  decisionsToFillIn,
  type FillInOptions,
  type Plan,
  type PlanOptions,
} from "../migrate/plan/index.ts";
export {
  type Comparison,
  type Configuration,
  type Decisions,
  type Proof,
  type ReadDocument,
  type ReadOptions,
  readConfiguration,
  readProfile,
  type UnitProfile,
} from "../model/index.ts";
export { type KnownUnitAcoustics, unitAcoustics } from "../profile/index.ts";
export { type ProveOptions, prove } from "../proof/index.ts";
export {
  type ComparisonReportOptions,
  comparisonReport,
  historyReport,
  type MigrationPlanOptions,
  migrationPlanReport,
  type ProofReportOptions,
  proofReport,
  type ReportDocument,
  type ReportedPlan,
  renderHtml,
  renderMarkdown,
  renderText,
  type TextOptions,
  validationReport,
} from "../report/index.ts";
export {
  type CheckedScreen,
  type CheckOptions,
  checkScreens,
  type ScreenToCheck,
  type ValidationOptions,
  validateConfiguration,
} from "../rules/index.ts";
