// Made by `npm run generate` from schemas/. Do not edit.

/**
 * What a change does.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ChangeEffect".
 */
export type ChangeEffect = (ResponseEffect | LevelEffect | FrequencyEffect | DelayEffect | CrossingEffect | ProtectionEffect | ReachEffect)

/**
 * What differs between two configurations: every raw change, and what they mean in the engineer's words.
 */
export interface Comparison {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.comparison"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
readonly before: ComparedDocument
readonly after: ComparedDocument
readonly tolerances: ComparisonTolerances
readonly counts: ComparisonCounts
/**
 * Most serious first.
 */
readonly findings: readonly ComparisonFinding[]
/**
 * The raw changes that are only counted, by their position in `changes`.
 * 
 * Items: Position.
 */
readonly belowTolerance: readonly number[]
/**
 * Every difference by identity.
 */
readonly changes: readonly RawChange[]
/**
 * Items that only have another key.
 */
readonly renames: readonly RenamedItem[]
/**
 * Lists in another order.
 */
readonly orders: readonly ReorderedList[]
/**
 * Responses that findings refer to; empty unless asked for.
 */
readonly curves: readonly ComparisonCurve[]
readonly offStandard?: StandardComparison
}
/**
 * One of the two documents.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ComparedDocument".
 */
export interface ComparedDocument {
/**
 * Key of the site.
 */
readonly siteId: string
/**
 * Name of the site.
 */
readonly siteName: string
/**
 * Key of the screen.
 */
readonly screenId: string
/**
 * Name of the screen.
 */
readonly screenName: string
/**
 * Unit profile.
 */
readonly profileId: string
/**
 * Revision of the profile.
 */
readonly profileRevision: string
/**
 * Serial number of the unit.
 */
readonly serial: string
/**
 * Firmware of the unit.
 */
readonly firmware: string
/**
 * SHA-256 of the canonical configuration (RFC 8785), 64 hexadecimal digits, where it was worked out.
 */
readonly sha256?: string
}
/**
 * Differences below these are counted, not told.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ComparisonTolerances".
 */
export interface ComparisonTolerances {
/**
 * Levels and gains, in dB.
 */
readonly levelDb: number
/**
 * Largest difference of two responses, in dB.
 */
readonly responseDb: number
/**
 * Delays, in milliseconds.
 */
readonly delayMs: number
/**
 * Frequencies and Q, as a part of the value: 0.001 is a tenth of a percent.
 */
readonly frequencyRatio: number
}
/**
 * How many there are of each.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ComparisonCounts".
 */
export interface ComparisonCounts {
/**
 * Findings that must be looked at before the next show.
 */
readonly error: number
/**
 * Findings that somebody is likely to hear or to meet.
 */
readonly warning: number
/**
 * Findings for the record.
 */
readonly advice: number
/**
 * Raw changes, all together.
 */
readonly changes: number
/**
 * Raw changes that make no difference worth telling.
 */
readonly belowTolerance: number
/**
 * Items that only have another key.
 */
readonly renames: number
}
/**
 * One cause with all it does.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ComparisonFinding".
 */
export interface ComparisonFinding {
/**
 * Stable code, family first: crossover/moved.
 */
readonly code: string
/**
 * What it is about, most serious first.
 */
readonly kind: ("protection" | "sound" | "routing" | "operation" | "record")
/**
 * How much it matters, most serious first.
 */
readonly severity: ("error" | "warning" | "advice")
readonly place: ComparedPlace
/**
 * Every place that it happened at; one or more.
 */
readonly places: readonly ComparedPlace[]
/**
 * One sentence with its numbers.
 */
readonly words: string
/**
 * The value before, with its unit, where one says it.
 */
readonly before?: string
/**
 * The value after, with its unit, where one says it.
 */
readonly after?: string
/**
 * What it does, computed.
 */
readonly effects: readonly ChangeEffect[]
/**
 * Named figures; the unit stands in the name.
 */
readonly numbers: {
[k: string]: number | string | boolean | null
}
/**
 * What to do about it.
 */
readonly remedy?: string
/**
 * Standard and clause, or "common practice, no source".
 */
readonly source?: string
/**
 * The raw changes that it accounts for, by their position in `changes`.
 * 
 * Items: Position.
 */
readonly causes: readonly number[]
/**
 * The curves that show it, by their position in `curves`.
 * 
 * Items: Position.
 */
readonly curves: readonly number[]
}
/**
 * Where something is.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ComparedPlace".
 */
export interface ComparedPlace {
/**
 * JSON Pointer (RFC 6901) into the second document; into the first where the second lacks the place.
 */
readonly pointer: string
/**
 * In the engineer's words.
 */
readonly words: string
}
/**
 * A response differs.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ResponseEffect".
 */
export interface ResponseEffect {
/**
 * What sort of effect.
 */
readonly kind: "response"
/**
 * Largest difference, after minus before, in dB.
 */
readonly maxDb: number
/**
 * Where, in hertz.
 */
readonly atHz: number
/**
 * Root mean square over octaves from 20 Hz to 20 kHz, in dB.
 */
readonly rmsDb: number
/**
 * Change of the C-weighted level of pink noise (IEC 61672-1), in dB.
 */
readonly levelDbC: number
/**
 * Largest difference of phase, either way, in degrees. Given where the phase alone differs, as with an all-pass.
 */
readonly phaseDeg?: number
/**
 * Where, in hertz.
 */
readonly phaseAtHz?: number
}
/**
 * The level at the seats differs.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "LevelEffect".
 */
export interface LevelEffect {
/**
 * What sort of effect.
 */
readonly kind: "level"
/**
 * Change in dB.
 */
readonly levelDb: number
}
/**
 * A corner or a crossover moved.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "FrequencyEffect".
 */
export interface FrequencyEffect {
/**
 * What sort of effect.
 */
readonly kind: "frequency"
/**
 * Before, in hertz.
 */
readonly fromHz: number
/**
 * After, in hertz.
 */
readonly toHz: number
/**
 * Upwards positive.
 */
readonly octaves: number
}
/**
 * Sound arrives later.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "DelayEffect".
 */
export interface DelayEffect {
/**
 * What sort of effect.
 */
readonly kind: "delay"
/**
 * Later positive, in milliseconds.
 */
readonly delayMs: number
/**
 * The distance that sound travels in that time at the screen's temperature, in metres.
 */
readonly distanceM: number
}
/**
 * Two ways of a loudspeaker meet otherwise; with ideal drivers that the settings before had made equal in level and time.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "CrossingEffect".
 */
export interface CrossingEffect {
/**
 * What sort of effect.
 */
readonly kind: "crossing"
/**
 * Loudspeaker.
 */
readonly loudspeakerId: string
/**
 * Lower way.
 */
readonly lowerWayId: string
/**
 * Upper way.
 */
readonly upperWayId: string
/**
 * Crossover frequency before, in hertz.
 */
readonly fromHz: number
/**
 * After, in hertz.
 */
readonly toHz: number
/**
 * Phase of the lower way minus the upper one there, before, in degrees.
 */
readonly phaseBeforeDeg: number
/**
 * After, in degrees.
 */
readonly phaseAfterDeg: number
/**
 * Largest minus smallest level of the sum within an octave, before, in dB.
 */
readonly rippleBeforeDb: number
/**
 * After, in dB.
 */
readonly rippleAfterDb: number
}
/**
 * What guards drivers or people differs.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ProtectionEffect".
 */
export interface ProtectionEffect {
/**
 * What sort of effect.
 */
readonly kind: "protection"
/**
 * How well it guards after the change.
 */
readonly guard: ("weaker" | "stronger" | "lost" | "gained" | "other")
/**
 * Whom or what.
 */
readonly guards: ("driver" | "people")
}
/**
 * Loudspeakers get other signals.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ReachEffect".
 */
export interface ReachEffect {
/**
 * What sort of effect.
 */
readonly kind: "reach"
/**
 * Fall silent.
 * 
 * Items: Name.
 */
readonly silent: readonly string[]
/**
 * Get sound that had none.
 * 
 * Items: Name.
 */
readonly added: readonly string[]
/**
 * Get more signals than before.
 * 
 * Items: Name.
 */
readonly doubled: readonly string[]
}
/**
 * One difference by identity.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "RawChange".
 */
export interface RawChange {
/**
 * changed: another value; added: the first document lacks it; removed: the second lacks it.
 */
readonly kind: ("changed" | "added" | "removed")
/**
 * Where: members by name, items by key, bands by position from 0; keys as in the second document.
 * 
 * Items: Part.
 */
readonly path: readonly string[]
/**
 * The same without keys, "outputs[].highPass.frequencyHz".
 */
readonly field: string
/**
 * A value of the configuration, as JSON has it.
 */
readonly before?: {
[k: string]: unknown
}
/**
 * A value of the configuration, as JSON has it.
 */
readonly after?: {
[k: string]: unknown
}
}
/**
 * An item that only has another key.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "RenamedItem".
 */
export interface RenamedItem {
/**
 * The list.
 * 
 * Items: Part.
 */
readonly path: readonly string[]
/**
 * The list without keys.
 */
readonly field: string
/**
 * Key in the first document.
 */
readonly before: string
/**
 * Key in the second document.
 */
readonly after: string
/**
 * How the two were known as one: nothing else differs; the outputs feed the same; the old key was needed for such an output.
 */
readonly because: ("same-content" | "same-feed" | "made-room")
}
/**
 * A list whose items stand in another order, which means nothing.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ReorderedList".
 */
export interface ReorderedList {
/**
 * The list.
 * 
 * Items: Part.
 */
readonly path: readonly string[]
/**
 * The list without keys.
 */
readonly field: string
/**
 * Keys, first document.
 * 
 * Items: Key.
 */
readonly before: readonly string[]
/**
 * Keys, second document.
 * 
 * Items: Key.
 */
readonly after: readonly string[]
}
/**
 * Levels before and after over frequency.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ComparisonCurve".
 */
export interface ComparisonCurve {
/**
 * What it shows.
 */
readonly title: string
/**
 * equalizer: of one program channel; driver-eq: of one output; loudspeaker: the sum of a loudspeaker's ways, with ideal drivers that the settings before had made equal in level and time.
 */
readonly subject: ("equalizer" | "driver-eq" | "loudspeaker")
/**
 * In hertz, ascending.
 * 
 * Items: Hertz.
 */
readonly frequenciesHz: readonly number[]
/**
 * Level in dB before.
 * 
 * Items: dB.
 */
readonly beforeDb: readonly number[]
/**
 * Level in dB after.
 * 
 * Items: dB.
 */
readonly afterDb: readonly number[]
/**
 * The single ways of a loudspeaker, lowest first.
 */
readonly ways?: readonly ComparisonWayCurve[]
}
/**
 * One way of a loudspeaker.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "ComparisonWayCurve".
 */
export interface ComparisonWayCurve {
/**
 * Way.
 */
readonly wayId: string
/**
 * Level in dB before; empty where there was none.
 * 
 * Items: dB.
 */
readonly beforeDb: readonly number[]
/**
 * Level in dB after; empty where there is none.
 * 
 * Items: dB.
 */
readonly afterDb: readonly number[]
}
/**
 * How the second document differs from a house standard, in what the house decides.
 * 
 * This interface was referenced by `Comparison`'s JSON-Schema
 * via the `definition` "StandardComparison".
 */
export interface StandardComparison {
readonly comparison: Comparison
/**
 * For each finding of it: whether what it tells also changed between the two documents.
 * 
 * Items: True: it changed since.
 */
readonly changedSince: readonly boolean[]
}
