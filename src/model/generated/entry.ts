// Made by `npm run generate` from schemas/. Do not edit.

/**
 * SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
 * 
 * This interface was referenced by `Entry`'s JSON-Schema
 * via the `definition` "Sha256".
 */
export type Sha256 = string
/**
 * Why the snapshot was taken.
 * 
 * This interface was referenced by `Entry`'s JSON-Schema
 * via the `definition` "Reason".
 */
export type Reason = ("as-found" | "as-left" | "before-swap" | "after-swap" | "routine" | "imported" | "standard-applied" | "other")

/**
 * One snapshot in a logbook with its circumstances. Never changed once written; its id is the SHA-256 of its RFC 8785 canonical text.
 */
export interface Entry {
/**
 * Kind of document.
 */
readonly kind: "boothkeep.entry"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * Stable key of the site.
 */
readonly siteId: string
/**
 * Stable key of the screen inside the site.
 */
readonly screenId: string
/**
 * Greater than the number of every previous entry: orders the entries of a screen without a clock.
 */
readonly number: number
/**
 * Ids of the entries of this screen that were the last ones known when this one was written: none for the first, more than one where two people had recorded apart.
 * 
 * @maxItems 64
 */
readonly previous: readonly Sha256[]
readonly reason: Reason
/**
 * When, as the writer's clock said: RFC 3339 with offset. A label, never the order.
 */
readonly recordedAt: string
/**
 * Who: a person, a team or a role.
 */
readonly recordedBy: string
readonly unit: RecordedUnit
/**
 * Remarks.
 */
readonly notes?: string
/**
 * SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
 */
readonly configuration: string
/**
 * Files kept with the entry byte for byte: the unit's own file, the unit profile, a photograph.
 * 
 * @minItems 1
 * @maxItems 64
 */
readonly attachments?: readonly Attachment[]
}
/**
 * The unit that held the configuration.
 * 
 * This interface was referenced by `Entry`'s JSON-Schema
 * via the `definition` "RecordedUnit".
 */
export interface RecordedUnit {
/**
 * Unit profile of this model.
 */
readonly profileId: string
/**
 * Serial number as on the unit.
 */
readonly serial: string
}
/**
 * A file kept with an entry.
 * 
 * This interface was referenced by `Entry`'s JSON-Schema
 * via the `definition` "Attachment".
 */
export interface Attachment {
/**
 * A label, never used as a path.
 */
readonly name: string
readonly sha256: Sha256
/**
 * Size in bytes.
 */
readonly sizeBytes: number
}
