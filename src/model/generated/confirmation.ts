// Made by `npm run generate` from schemas/. Do not edit.

/**
 * What a unit holds after loading, read back from it and compared with what was to be loaded.
 */
export interface Confirmation {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.confirmation"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * equal: every value is the same. within-steps: values differ by less than the unit's steps, which counts as equal. differs: something else was read back.
 */
readonly verdict: ("equal" | "within-steps" | "differs")
/**
 * The auditorium.
 */
readonly screen: {
/**
 * Site.
 */
readonly siteId: string
/**
 * Screen.
 */
readonly screenId: string
}
readonly intended: ConfirmedDocument
readonly readBack: ConfirmedDocument
readonly counts: ConfirmationCounts
/**
 * Values that differ, the most serious first, then the order of the document.
 */
readonly differences: readonly ConfirmedDifference[]
}
/**
 * A configuration by what identifies it.
 * 
 * This interface was referenced by `Confirmation`'s JSON-Schema
 * via the `definition` "ConfirmedDocument".
 */
export interface ConfirmedDocument {
/**
 * SHA-256 of its canonical text (RFC 8785).
 */
readonly sha256: string
/**
 * Unit profile.
 */
readonly profileId: string
/**
 * Serial number.
 */
readonly serial: string
/**
 * Firmware version.
 */
readonly firmware: string
/**
 * Entry of the logbook that holds it.
 */
readonly entryId?: string
}
/**
 * How many values.
 * 
 * This interface was referenced by `Confirmation`'s JSON-Schema
 * via the `definition` "ConfirmationCounts".
 */
export interface ConfirmationCounts {
/**
 * Values of the intended configuration that a unit holds.
 */
readonly compared: number
/**
 * Differences within the unit's steps.
 */
readonly withinSteps: number
/**
 * Differences beyond them.
 */
readonly differing: number
/**
 * Differences in what no unit holds: facts of the auditorium, remarks, calibration.
 */
readonly notHeld: number
}
/**
 * One value, or one part as a whole.
 * 
 * This interface was referenced by `Confirmation`'s JSON-Schema
 * via the `definition` "ConfirmedDifference".
 */
export interface ConfirmedDifference {
/**
 * within-step: equal as far as the unit's steps allow. differs: another value. not-held: no unit holds it, so it proves nothing.
 */
readonly outcome: ("differs" | "within-step" | "not-held")
/**
 * What it is about.
 */
readonly kind: ("protection" | "sound" | "routing" | "operation" | "record")
/**
 * JSON Pointer (RFC 6901) into the document that holds it.
 */
readonly pointer: string
/**
 * Where, in the engineer's words.
 */
readonly place: string
/**
 * What the value is called there.
 */
readonly label: string
/**
 * Unit of the number; empty for anything else.
 */
readonly unit: string
/**
 * What was to be loaded; null: nothing.
 */
readonly intended: (number | string | boolean | null)
/**
 * What was read back; null: nothing.
 */
readonly readBack: (number | string | boolean | null)
/**
 * Distance of two values of the unit there, in the same unit.
 */
readonly step?: number
}
