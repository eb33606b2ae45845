// Made by `npm run generate` from schemas/. Do not edit.

/**
 * What becomes of one screen when a house standard is applied. Nothing of it is done: it is loaded by a person and counts when the unit was read back.
 */
export interface Proposal {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.proposal"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
readonly screen: ProposedScreen
/**
 * Standard to be applied.
 */
readonly standard: {
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
}
/**
 * Version of it that the screen last followed, as confirmed by reading back; null: none.
 */
readonly followed: (string | null)
/**
 * SHA-256 over configuration, standard, version last followed, unit profile and decisions: the same basis gives the same proposal.
 */
readonly basis: string
/**
 * follows: nothing to load; proposed: a configuration is proposed; open: answers are missing.
 */
readonly outcome: ("follows" | "proposed" | "open")
/**
 * Every place where screen and standard differ, in the order of the document.
 * 
 * @minItems 0
 * @maxItems 100000
 */
readonly steps: readonly ProposedStep[]
/**
 * What becomes of it on this unit: rounded, refitted, moved, left out.
 * 
 * @minItems 0
 * @maxItems 100000
 */
readonly fitting: readonly FittedItem[]
/**
 * What the unit or the screen lacks and somebody has to decide, answered or not.
 * 
 * @minItems 0
 * @maxItems 100000
 */
readonly questions: readonly FittingQuestion[]
/**
 * Positions, from 0, of the answers of the decisions file that were used.
 * 
 * @minItems 0
 * @maxItems 10000
 * 
 * Items: Position.
 */
readonly answersUsed: readonly number[]
/**
 * What the rule book finds in the proposed configuration that it did not find before.
 * 
 * @minItems 0
 * @maxItems 100000
 */
readonly findings: readonly ProposalFinding[]
/**
 * What changes in sound, path by path; null: nothing is proposed.
 */
readonly sound: (null | ProposedSound)
/**
 * SHA-256 of the proposed configuration's canonical text; null: nothing is proposed.
 */
readonly configurationSha256: (string | null)
}
/**
 * The screen.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "ProposedScreen".
 */
export interface ProposedScreen {
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
}
/**
 * One place.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "ProposedStep".
 */
export interface ProposedStep {
/**
 * Place by ids.
 */
readonly place: string
/**
 * The same without keys, as in the table of fields: 'presets[].levelDb'.
 */
readonly field: string
/**
 * The place in the engineer's words.
 */
readonly words: string
/**
 * What stands there.
 */
readonly label: string
/**
 * Unit of the number, or nothing.
 */
readonly unit: string
/**
 * taken: as the standard says; rounded: the same on the unit's steps; nearest: what the unit can do that comes nearest, by decision; kept: the screen differs, the standard did not change; kept-by-decision: the screen's value stays; asks: both changed, or it was never settled; by-hand: found by measuring or tied to the unit, so a person has to settle it.
 */
readonly outcome: ("taken" | "rounded" | "nearest" | "kept" | "kept-by-decision" | "asks" | "by-hand")
/**
 * Why it comes out so, as a sentence.
 */
readonly why: string
/**
 * Value as the configuration has it: a leaf, an item, a list; null: nothing stands there.
 */
readonly screen: {
[k: string]: unknown
}
/**
 * What the standard says, settled: the value, the nearest limit, the item; null: nothing may stand there.
 */
readonly standard: {
[k: string]: unknown
}
/**
 * What the unit can do that comes nearest, where it cannot do what the standard says.
 */
readonly nearest?: {
[k: string]: unknown
}
/**
 * What the proposed configuration has there; null: nothing.
 */
readonly result: {
[k: string]: unknown
}
/**
 * How the standard holds it.
 */
readonly hold: ("exactly" | "within" | "these-only" | "at-least")
/**
 * Least value, of limits.
 */
readonly min?: number
/**
 * Greatest value, of limits.
 */
readonly max?: number
/**
 * Reason that the standard gives.
 */
readonly reason?: string
}
/**
 * What became of one place on this unit.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "FittedItem".
 */
export interface FittedItem {
/**
 * Place by ids.
 */
readonly place: string
/**
 * The place in the engineer's words.
 */
readonly words: string
/**
 * rounded: on the unit's steps; refitted: other filters with the same effect; moved: another slot, connector or member; left-out: not on this screen; asks: hangs on an open question.
 */
readonly outcome: ("rounded" | "refitted" | "moved" | "left-out" | "asks")
/**
 * What became of it, as a sentence.
 */
readonly text: string
/**
 * Numbers that matter, each with its unit in the name.
 */
readonly numbers: {
[k: string]: number | string | boolean
}
/**
 * What a person has to do about it outside the configuration.
 */
readonly todo?: string
}
/**
 * Something to decide. The key comes from the place, so that one answer serves all like screens.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "FittingQuestion".
 */
export interface FittingQuestion {
/**
 * Key, to be named in a decisions file; begins with 'fitting/'.
 */
readonly place: string
/**
 * The place in the engineer's words.
 */
readonly words: string
/**
 * The question.
 */
readonly question: string
/**
 * Possible answers.
 * 
 * @minItems 1
 * @maxItems 100
 */
readonly options: readonly FittingOption[]
/**
 * Option that loses least.
 */
readonly recommended?: string
/**
 * Option that was chosen; null: open.
 */
readonly chosen: (string | null)
/**
 * Why the answer that was given does not fit this screen.
 */
readonly unfit?: string
/**
 * Why it was so decided.
 */
readonly note?: string
}
/**
 * One possible answer.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "FittingOption".
 */
export interface FittingOption {
/**
 * Stable key.
 */
readonly id: string
/**
 * What is done.
 */
readonly words: string
/**
 * What that means.
 */
readonly consequence: string
/**
 * Keys from which the answer names some.
 * 
 * @minItems 0
 * @maxItems 1000
 * 
 * Items: Key.
 */
readonly candidates?: readonly string[]
/**
 * So many have to be named.
 */
readonly idsCount?: number
/**
 * Protects drivers or people less than before: the answer has to accept that.
 */
readonly weakensProtection?: boolean
}
/**
 * A finding of the rule book.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "ProposalFinding".
 */
export interface ProposalFinding {
/**
 * Code.
 */
readonly code: string
/**
 * Severity.
 */
readonly severity: ("error" | "warning" | "advice")
/**
 * Place in words.
 */
readonly place: string
/**
 * What was found.
 */
readonly words: string
}
/**
 * The proof in short.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "ProposedSound".
 */
export interface ProposedSound {
/**
 * Verdict over all paths.
 */
readonly verdict: ("equal" | "within-tolerance" | "differs")
/**
 * Paths that were compared.
 */
readonly paths: number
/**
 * Equal paths.
 */
readonly equal: number
/**
 * Paths within the tolerances.
 */
readonly withinTolerance: number
/**
 * Paths with an audible difference.
 */
readonly audible: number
/**
 * Paths that fall silent.
 */
readonly missing: number
/**
 * Paths that are new.
 */
readonly new: number
/**
 * Paths that change alike, told once.
 * 
 * @minItems 0
 * @maxItems 10000
 */
readonly groups: readonly ProposedPathGroup[]
}
/**
 * Paths that change alike.
 * 
 * This interface was referenced by `Proposal`'s JSON-Schema
 * via the `definition` "ProposedPathGroup".
 */
export interface ProposedPathGroup {
/**
 * Verdict.
 */
readonly verdict: string
/**
 * Which paths and how they change, as a sentence.
 */
readonly words: string
/**
 * How many.
 */
readonly paths: number
/**
 * Change of level in dB.
 */
readonly levelDb?: number
/**
 * Greatest change of the response in dB.
 */
readonly maxDb?: number
/**
 * Change of delay in ms, beyond what all paths have in common.
 */
readonly delayMs?: number
}
