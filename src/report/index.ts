export { harmless, linesOf } from "../base/text/index.ts";
export { CAUTIONS, type CautionCode, cautionBlock } from "./cautions.ts";
export { auditComparisonReport } from "./compose/audit/comparison.ts";
export { auditCsv } from "./compose/audit/csv.ts";
export { auditPage } from "./compose/audit/page.ts";
export { auditReport } from "./compose/audit/report.ts";
export { type ComparisonReportOptions, comparisonReport } from "./compose/comparison/comparison.ts";
export { type VisitReport, visitReport } from "./compose/comparison/visit.ts";
export { type ConfirmationReportOptions, confirmationReport } from "./compose/confirmation.ts";
export { driftCsv } from "./compose/drift/csv.ts";
export { driftReport, type ReportedDrift } from "./compose/drift/drift.ts";
export { driftJson } from "./compose/drift/json.ts";
export { type EntrySheetOptions, entrySheet } from "./compose/entry-sheet/entry-sheet.ts";
export { type HandoverSheetOptions, handoverSheet } from "./compose/handover.ts";
export { imprintFooter } from "./compose/imprint-block.ts";
export { logbookCheckReport } from "./compose/logbook/check.ts";
export { type EntryReportInput, entryReport } from "./compose/logbook/entry.ts";
export { historyReport } from "./compose/logbook/history.ts";
export { packReport } from "./compose/logbook/pack-contents.ts";
export { paperMatchReport } from "./compose/logbook/paper-match.ts";
export { searchReport } from "./compose/logbook/search.ts";
export { readBackWords, unsettledWords } from "./compose/logbook/standing-words.ts";
export {
  manyScreensReport,
  type ReportedScreenResult,
  type ReportedScreens,
  type ScreenState,
} from "./compose/migration/many-screens.ts";
export {
  type MigrationPlanOptions,
  migrationPlanReport,
  migrationSummary,
  type ReportedPlan,
} from "./compose/migration/plan.ts";
export { type RepatchOptions, repatchSheet } from "./compose/migration/repatch-sheet.ts";
export { type WorkListOptions, workList } from "./compose/migration/work-list.ts";
export { type ProofReportOptions, proofReport, proofSummary } from "./compose/proof/proof.ts";
export { type RestoreSheetInput, restoreSheet } from "./compose/restore.ts";
export { ruleBookReport, ruleListReport, ruleReport } from "./compose/rule-book.ts";
export { derivedReport } from "./compose/standard/derived.ts";
export { type ProposalsOptions, proposalsReport } from "./compose/standard/proposals.ts";
export { type MeasuredChannel, type MeasuredReport, measuredReport } from "./compose/tables/measured.ts";
export { tablesRefusedReport } from "./compose/tables/refused.ts";
export { type TablesTakenReport, tablesTakenReport } from "./compose/tables/taken.ts";
export { validationReport } from "./compose/validation.ts";
export type {
  Block,
  Caution,
  Cell,
  Column,
  Columns,
  Facts,
  Figure,
  Heading,
  Item,
  ItemList,
  PageBreak,
  Paragraph,
  ReportDocument,
  ScanCode,
  Signatures,
  SvgNode,
  Table,
} from "./document.ts";
export type { EqualizerCurve } from "./plot/equalizer-plot.ts";
export type { ResponsePair } from "./plot/response-plot.ts";
export { renderHtml } from "./render/html.ts";
export { renderMarkdown } from "./render/markdown.ts";
export type { TextOptions } from "./render/options.ts";
export { renderSarif, type SarifOptions, type SarifPosition } from "./render/sarif.ts";
export { svgText } from "./render/svg.ts";
export { renderText } from "./render/text.ts";
