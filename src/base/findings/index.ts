export {
  compareFindings,
  FINDING_KINDS,
  type Finding,
  type FindingKind,
  type FindingNumbers,
  type Place,
  SEVERITIES,
  type Severity,
} from "./finding.ts";
export { pointer, pointerParts } from "./pointer.ts";
