export { CAUTIONS, type CautionCode, cautionBlock } from "./cautions.ts";
export { type EntrySheetOptions, entrySheet } from "./compose/entry-sheet.ts";
export {
  type MigrationPlanOptions,
  migrationPlanReport,
  type ReportedPlan,
} from "./compose/migration-plan.ts";
export { type ProofReportOptions, proofReport } from "./compose/proof.ts";
export { type RepatchOptions, repatchSheet } from "./compose/repatch-sheet.ts";
export type {
  Block,
  Caution,
  Cell,
  Column,
  Facts,
  Figure,
  Heading,
  Item,
  ItemList,
  PageBreak,
  Paragraph,
  ReportDocument,
  Signatures,
  SvgNode,
  Table,
} from "./document.ts";
export { harmless, linesOf } from "./harmless.ts";
export { renderHtml } from "./render/html.ts";
export { renderMarkdown } from "./render/markdown.ts";
export type { TextOptions } from "./render/options.ts";
export { svgText } from "./render/svg.ts";
export { renderText } from "./render/text.ts";
