// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Check.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditCheckName".
 */
export type AuditCheckName = ("readable" | "recorded" | "valid" | "standard" | "signed" | "as-left" | "firmware" | "doubles" | "calibration" | "twins")
/**
 * good; advice, warning, error: as findings; unknown: could not be told; none: does not apply.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditState".
 */
export type AuditState = ("good" | "advice" | "warning" | "error" | "unknown" | "none")

/**
 * How many screens stand on one day: one row a screen, one check a column. Also the basis of the next audit, which takes over what did not change.
 */
export interface Audit {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.audit"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
/**
 * When, RFC 3339 with offset.
 */
readonly auditedAt: string
/**
 * Days without an entry after which a screen counts as stale.
 */
readonly staleAfterDays: number
/**
 * Days after which a calibration counts as old.
 */
readonly calibrationDays: number
/**
 * Standards that screens were held against.
 * 
 * @minItems 0
 * @maxItems 1000
 * 
 * Items: A standard.
 */
readonly standards: {
/**
 * Standard.
 */
readonly id: string
/**
 * Version.
 */
readonly version: string
/**
 * Name.
 */
readonly title: string
}[]
/**
 * Screens, by site and screen.
 * 
 * @minItems 0
 * @maxItems 200000
 */
readonly screens: readonly AuditedScreen[]
/**
 * Lists of places that screens have in common, so that they stand once. Left out: an audit from before screens were compared with their twins.
 * 
 * @minItems 0
 * @maxItems 200000
 */
readonly layouts?: readonly AuditLayout[]
/**
 * How many screens stand how, check by check.
 * 
 * @minItems 0
 * @maxItems 20
 */
readonly counts: readonly AuditCount[]
}
/**
 * One screen.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditedScreen".
 */
export interface AuditedScreen {
/**
 * Logbook as it was named.
 */
readonly logbook: string
/**
 * Folder of the screen inside the logbook.
 */
readonly folder: string
/**
 * SHA-256 over all that the row rests on but the date: the same basis gives the same row.
 */
readonly basis: string
/**
 * Site key.
 */
readonly siteId: string
/**
 * Site name.
 */
readonly siteName: string
/**
 * Screen key.
 */
readonly screenId: string
/**
 * Screen name.
 */
readonly screenName: string
/**
 * Unit profile.
 */
readonly profileId: string
/**
 * Serial number of the unit.
 */
readonly serial: string
/**
 * Firmware.
 */
readonly firmware: string
/**
 * Network addresses of the unit.
 * 
 * @minItems 0
 * @maxItems 64
 * 
 * Items: Address.
 */
readonly addresses: readonly string[]
/**
 * How many entries.
 */
readonly entries: number
/**
 * When the last entry was recorded; null: none.
 */
readonly lastEntryAt: (string | null)
/**
 * When the last entry as left was recorded; null: none.
 */
readonly asLeftAt: (string | null)
/**
 * Date of calibration; null: none.
 */
readonly calibratedOn: (string | null)
readonly house?: AuditedHouse
/**
 * One for each check, in the order of the columns.
 * 
 * @minItems 0
 * @maxItems 20
 */
readonly checks: readonly AuditCheck[]
}
/**
 * What the house decides on the screen, as fingerprints that are compared with those of its twins.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditedHouse".
 */
export interface AuditedHouse {
/**
 * Format, drive and unit: screens of the same should be alike.
 */
readonly twins: string
/**
 * Layout of the places.
 */
readonly layout: string
/**
 * Six characters for each place of the layout.
 */
readonly values: string
}
/**
 * One check of one screen.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditCheck".
 */
export interface AuditCheck {
readonly check: AuditCheckName
readonly state: AuditState
/**
 * What was found, as a sentence.
 */
readonly words: string
/**
 * How many: findings, deviations, days, changes.
 */
readonly count?: number
/**
 * The entries in which what was found first shows, in their order; absent where that is not told.
 * 
 * @minItems 1
 * @maxItems 100000
 */
readonly since?: readonly AuditSince[]
}
/**
 * An entry in which something first shows.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditSince".
 */
export interface AuditSince {
/**
 * SHA-256 of the entry.
 */
readonly entryId: string
/**
 * Number of the entry.
 */
readonly number: number
/**
 * When it was recorded, RFC 3339 with offset.
 */
readonly recordedAt: string
/**
 * Who recorded it.
 */
readonly recordedBy: string
/**
 * Why it was recorded.
 */
readonly reason: string
/**
 * True: it is in the screen's first entry already, so nobody knows since when.
 */
readonly fromTheStart: boolean
/**
 * How many deviations first show here.
 */
readonly count: number
}
/**
 * Places of a screen that the house decides, in one order.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditLayout".
 */
export interface AuditLayout {
/**
 * SHA-256 over the places.
 */
readonly id: string
/**
 * Places by ids.
 * 
 * @minItems 0
 * @maxItems 100000
 * 
 * Items: Place.
 */
readonly places: readonly string[]
}
/**
 * How many screens stand how in one check.
 * 
 * This interface was referenced by `Audit`'s JSON-Schema
 * via the `definition` "AuditCount".
 */
export interface AuditCount {
readonly check: AuditCheckName
/**
 * Good.
 */
readonly good: number
/**
 * Advice.
 */
readonly advice: number
/**
 * Warnings.
 */
readonly warning: number
/**
 * Errors.
 */
readonly error: number
/**
 * Unknown.
 */
readonly unknown: number
/**
 * Does not apply.
 */
readonly none: number
}
