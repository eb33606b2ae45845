export { type AssembleOptions, AUDIT_CHECKS, assembleAudit } from "./assemble.ts";
export {
  type AuditEntry,
  type AuditRow,
  type AuditScreenOptions,
  auditScreen,
  NO_ENTRY,
  type ScreenDamage,
  type ScreenToAudit,
} from "./audit-screen.ts";
export { type AuditChange, type AuditComparison, compareAudits } from "./compare-audits.ts";
