// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Answers to what applying a standard asks. One file serves many screens.
 */
export interface StandardDecisions {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.standard-decisions"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
/**
 * Standard for which the answers were given.
 */
readonly standardId: string
/**
 * Its version.
 */
readonly toVersion: string
/**
 * Answers.
 * 
 * @minItems 0
 * @maxItems 10000
 */
readonly answers: readonly StandardAnswer[]
/**
 * Remarks.
 */
readonly notes?: string
}
/**
 * One answer.
 * 
 * This interface was referenced by `StandardDecisions`'s JSON-Schema
 * via the `definition` "StandardAnswer".
 */
export interface StandardAnswer {
/**
 * Place that was asked about. Stars as in a standard; an exact place goes before one with stars.
 */
readonly place: string
/**
 * Screens that it holds for, as site/screen; stars stand for any text. Default: all. An answer that names screens goes before one that does not.
 * 
 * @minItems 1
 * @maxItems 10000
 * 
 * Items: Pattern.
 */
readonly screens?: readonly string[]
/**
 * standard: as the standard says; screen: as the screen has it; nearest: what the unit can do that comes nearest; at a place that begins with 'fitting/': an option of that question; null: not decided yet.
 */
readonly choose: (string | null)
/**
 * What the option asks to be named.
 * 
 * @minItems 1
 * @maxItems 1000
 * 
 * Items: Key.
 */
readonly ids?: readonly string[]
/**
 * Needed for an option that protects drivers or people less than before.
 */
readonly accepts?: "weaker-protection"
/**
 * Why.
 */
readonly note?: string
/**
 * The question in words, for whoever fills in the file; not read.
 */
readonly question?: string
/**
 * The choices in words, for whoever fills in the file; not read.
 * 
 * @minItems 0
 * @maxItems 100
 * 
 * Items: Choice.
 */
readonly choices?: readonly string[]
}
