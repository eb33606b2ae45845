export { RULES } from "./catalogue.ts";
export { type Edit, edited, editWords } from "./edits.ts";
export {
  type Breach,
  COMMON_PRACTICE,
  familyOf,
  RULE_FAMILIES,
  type Rule,
  type RuleExample,
  type RuleFamily,
  type RuleLimit,
  type ScreenRule,
  type ShapeRule,
  type SiteBreach,
  type SiteRule,
} from "./rule.ts";
export type { AcknowledgedFinding, RuleSetting, RuleSettings, SettingNote } from "./settings.ts";
export {
  checkConfiguration,
  type SiteFinding,
  shapeFindings,
  type Validation,
  type ValidationOptions,
  validateConfiguration,
  validateSite,
} from "./validate.ts";
