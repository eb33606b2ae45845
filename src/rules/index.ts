export { RULES } from "./catalogue.ts";
export { type CheckedScreen, type CheckOptions, checkScreens, type ScreenToCheck } from "./check-screens.ts";
export type { FedWay, Indexed, RuleContext, SourcedChannel } from "./context.ts";
export { type Edit, edited } from "./edits.ts";
export { isSameNetwork } from "./ip-address.ts";
export { PLACEMENTS, targetsOf } from "./program.ts";
export {
  type Breach,
  COMMON_PRACTICE,
  familyOf,
  RULE_FAMILIES,
  type Rule,
  type RuleExample,
  type RuleFamily,
  type RuleLimit,
  type RuleLimits,
  type RuleText,
  type ScreenRule,
  type ShapeRule,
  type SiteBreach,
  type SiteRule,
} from "./rule.ts";
export type { RuleSetting, RuleSettings } from "./settings.ts";
export {
  checkConfiguration,
  type SiteFinding,
  shapeFindings,
  type ValidationOptions,
  validateConfiguration,
  validateSite,
} from "./validate.ts";
export type { AcknowledgedFinding, SettingNote, Validation } from "./validation.ts";
