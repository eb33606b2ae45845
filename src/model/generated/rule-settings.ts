// Made by `npm run generate` from schemas/. Do not edit.

/**
 * One setting of one rule.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "RuleSetting".
 */
export type RuleSetting = (OffSetting | LimitSetting | AcknowledgeSetting)
/**
 * Stable key.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "Id".
 */
export type Id = string
/**
 * Code of the rule.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "Code".
 */
export type Code = string
/**
 * Site for which it holds; absent: every site.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "SiteId".
 */
export type SiteId = string
/**
 * Screen for which it holds; absent: every screen.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "ScreenId".
 */
export type ScreenId = string
/**
 * Place at and below which it holds, list items by their ids; absent: everywhere.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "SettingPlace".
 */
export type SettingPlace = string
/**
 * Why, in words; it is printed with every check.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "Reason".
 */
export type Reason = string

/**
 * By which rules of the rule book are switched off, given another limit or acknowledged, for all screens, one site or one screen, each with its reason. Rules about protection can be acknowledged, never switched off.
 */
export interface RuleSettings {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.rule-settings"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * Settings. Where several fit, the last one counts.
 * 
 * @minItems 0
 * @maxItems 1000
 */
readonly settings: readonly RuleSetting[]
}
/**
 * Switches a rule off. Not for rules about protection.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "OffSetting".
 */
export interface OffSetting {
readonly id: Id
/**
 * Kind of setting.
 */
readonly kind: "off"
readonly code: Code
readonly siteId?: SiteId
readonly screenId?: ScreenId
readonly place?: SettingPlace
readonly reason: Reason
}
/**
 * Gives a rule another limit. Not for rules about protection.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "LimitSetting".
 */
export interface LimitSetting {
readonly id: Id
/**
 * Kind of setting.
 */
readonly kind: "limit"
readonly code: Code
readonly siteId?: SiteId
readonly screenId?: ScreenId
/**
 * Name of the limit in the rule book; its unit stands in the name.
 */
readonly limit: string
/**
 * New value, in the limit's unit.
 */
readonly value: number
readonly reason: Reason
}
/**
 * Takes responsibility for what a rule finds: it is still printed, with the reason, and no longer counts as open.
 * 
 * This interface was referenced by `RuleSettings`'s JSON-Schema
 * via the `definition` "AcknowledgeSetting".
 */
export interface AcknowledgeSetting {
readonly id: Id
/**
 * Kind of setting.
 */
readonly kind: "acknowledge"
readonly code: Code
readonly siteId?: SiteId
readonly screenId?: ScreenId
readonly place?: SettingPlace
/**
 * Who answers for it: a team or a role.
 */
readonly by: string
readonly reason: Reason
}
