// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Part of the migration that answers for a value.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "StepName".
 */
export type StepName = ("unit" | "sources" | "channels" | "outputs" | "presets" | "equalizations" | "driver-filters" | "protection" | "levels" | "delays" | "operation" | "automation" | "labels" | "network" | "calibration" | "notes" | "remainder")
/**
 * What becomes of a value. kept: equal; rounded: to a value that the unit takes; refitted: EQ by other filters; moved: other connector, slot or place; restaged: same total from other stages; asks: a decision is missing; lost: left out.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Outcome".
 */
export type Outcome = ("kept" | "rounded" | "refitted" | "moved" | "restaged" | "asks" | "lost")

/**
 * How a configuration is expressed for another unit: items, questions, cables, the new configuration. Made from the old configuration, both profiles and the decisions alone: equal input gives equal bytes.
 */
export interface PlanDocument {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.plan"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
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
readonly from: Side
readonly to: Side
/**
 * SHA-256 of the old configuration's canonical text (RFC 8785).
 */
readonly configurationSha256: string
/**
 * Effort of the refits.
 */
readonly effort: ("quick" | "thorough")
/**
 * True: no decision is missing, and none rules the unit out. Whether it sounds the same, only the proof says.
 */
readonly decided: boolean
/**
 * How many values the old configuration holds.
 */
readonly values: number
readonly counts: Counts
/**
 * Items, in the order of the steps and of the signal flow.
 * 
 * @minItems 0
 * @maxItems 100000
 */
readonly items: readonly PlanItem[]
/**
 * Questions, answered and open.
 * 
 * @minItems 0
 * @maxItems 10000
 */
readonly questions: readonly Question[]
/**
 * Loudspeakers that are fed together with another one from now on, by decision.
 * 
 * @minItems 0
 * @maxItems 64
 */
readonly joins: readonly Join[]
/**
 * Program channels that play through others from now on, by decision.
 * 
 * @minItems 0
 * @maxItems 64
 */
readonly folds?: readonly Fold[]
/**
 * Cables, in rack order of the old unit.
 * 
 * @minItems 0
 * @maxItems 2000
 */
readonly cables: readonly Cable[]
/**
 * How each equalizer was carried over.
 * 
 * @minItems 0
 * @maxItems 10000
 */
readonly equalizers: readonly EqFitReport[]
readonly levels: Staging
readonly delays: Staging
/**
 * The new configuration: a document of kind boothkeep.configuration. While decisions are missing it holds what 'unanswered' says.
 */
readonly configuration: {

}
}
/**
 * A unit profile and its revision.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Side".
 */
export interface Side {
/**
 * Unit profile.
 */
readonly profileId: string
/**
 * Revision of the profile.
 */
readonly profileRevision: string
}
/**
 * How many values of the old configuration have each outcome; together all of them.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Counts".
 */
export interface Counts {
/**
 * Values kept.
 */
readonly kept: number
/**
 * Values rounded.
 */
readonly rounded: number
/**
 * Values refitted.
 */
readonly refitted: number
/**
 * Values moved.
 */
readonly moved: number
/**
 * Values restaged.
 */
readonly restaged: number
/**
 * Values that wait for a decision.
 */
readonly asks: number
/**
 * Values lost.
 */
readonly lost: number
}
/**
 * One thing that the plan does: it claims values of the old configuration, and no other item claims them.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "PlanItem".
 */
export interface PlanItem {
/**
 * Stable key: the step and the place.
 */
readonly id: string
readonly step: StepName
readonly outcome: Outcome
readonly place: PlanPlace
/**
 * One sentence with its numbers and units.
 */
readonly words: string
/**
 * Named figures; the unit stands in the name.
 */
readonly numbers: {
[k: string]: number | string | boolean | null
}
/**
 * Addresses of the values that this item accounts for.
 * 
 * @minItems 0
 * @maxItems 100000
 * 
 * Items: Address.
 */
readonly claims: readonly string[]
/**
 * The question that decides.
 */
readonly questionId?: string
}
/**
 * Where in the old configuration, by ids.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "PlanPlace".
 */
export interface PlanPlace {
/**
 * Property names and ids from the root, joined by '/'; empty: the whole document.
 */
readonly address: string
/**
 * In the engineer's words.
 */
readonly words: string
}
/**
 * Something that the engineer has to decide. The id comes from the place, so it is the same in every run and on every like screen.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Question".
 */
export interface Question {
/**
 * Stable key.
 */
readonly id: string
readonly place: PlanPlace
/**
 * The question.
 */
readonly words: string
/**
 * Possible answers.
 * 
 * @minItems 0
 * @maxItems 100
 */
readonly options: readonly QuestionOption[]
/**
 * What the plan proposes.
 */
readonly recommended?: {
/**
 * Option.
 */
readonly optionId: string
/**
 * Why.
 */
readonly reason: string
}
/**
 * What the plan holds as long as nobody decided.
 */
readonly unanswered: {
/**
 * Option.
 */
readonly optionId: string
/**
 * What that means.
 */
readonly words: string
}
readonly answer?: Answer
}
/**
 * One possible answer.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "QuestionOption".
 */
export interface QuestionOption {
/**
 * Stable key inside the question.
 */
readonly id: string
/**
 * What is done.
 */
readonly words: string
/**
 * What that means for sound, protection or operation.
 */
readonly consequence: string
/**
 * Named figures; the unit stands in the name.
 */
readonly numbers: {
[k: string]: number | string | boolean | null
}
/**
 * True: a driver, a person or the room is less protected than before. Such an answer has to accept it in so many words.
 */
readonly weakensProtection?: boolean
readonly sets?: DecidedValues
/**
 * True: with this answer the unit does not go into service here; the plan stays a study and is never ready.
 */
readonly rulesOut?: boolean
/**
 * What the answer must carry besides: a text, or ids from 'candidates'.
 */
readonly takes?: ("text" | "ids")
/**
 * Ids that an answer may name.
 * 
 * @minItems 0
 * @maxItems 1000
 * 
 * Items: Id.
 */
readonly candidates?: readonly string[]
/**
 * How many ids an answer names.
 */
readonly idsCount?: number
}
/**
 * The values that this answer sets, for a proof to judge against: what it does not name is not decided.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "DecidedValues".
 */
export interface DecidedValues {
readonly crossover?: DecidedCrossover
/**
 * Limiter that takes the place of the old one; null: none.
 */
readonly limiter?: (DecidedLimiter | null)
/**
 * Null: no FIR filter.
 */
readonly fir?: null
/**
 * The output is muted.
 */
readonly mute?: true
/**
 * Fader settings on the scale of the new unit.
 * 
 * @minItems 0
 * @maxItems 2001
 */
readonly faderMarks?: readonly DecidedMark[]
/**
 * Slots of presets.
 * 
 * @minItems 0
 * @maxItems 1000
 */
readonly slots?: readonly DecidedSlot[]
/**
 * Preset at start-up; null: none.
 */
readonly startPresetId?: (string | null)
/**
 * Preset that the automation items recall from now on.
 */
readonly recallPresetId?: string
}
/**
 * High-pass or low-pass that takes the place of the old one.
 */
export interface DecidedCrossover {
/**
 * Family.
 */
readonly family: ("butterworth" | "bessel" | "linkwitz-riley")
/**
 * Order; the slope is 6 dB per octave for each.
 */
readonly order: number
/**
 * Corner frequency in hertz.
 */
readonly frequencyHz: number
/**
 * Of a Bessel filter: what its corner is.
 */
readonly normalization?: ("phase" | "magnitude")
}
/**
 * A limiter as it was decided.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "DecidedLimiter".
 */
export interface DecidedLimiter {
/**
 * False: it does nothing.
 */
readonly enabled: boolean
/**
 * Threshold in dB relative to full scale of the output.
 */
readonly thresholdDbfs: number
/**
 * Attack time in milliseconds.
 */
readonly attackMs: number
/**
 * Release time in milliseconds.
 */
readonly releaseMs: number
}
/**
 * A fader setting as it was decided.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "DecidedMark".
 */
export interface DecidedMark {
/**
 * Preset that recalls it; absent, and no automation item either: at start-up.
 */
readonly presetId?: string
/**
 * Automation item that sets it.
 */
readonly automationId?: string
/**
 * Mark on the new unit's scale.
 */
readonly faderMark: number
}
/**
 * The slot of a preset as it was decided.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "DecidedSlot".
 */
export interface DecidedSlot {
/**
 * Preset.
 */
readonly presetId: string
/**
 * Slot of the new unit.
 */
readonly slot: number
}
/**
 * The decision on a question.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Answer".
 */
export interface Answer {
/**
 * Option that was chosen.
 */
readonly optionId: string
/**
 * Text of the answer.
 */
readonly text?: string
/**
 * Ids of the answer.
 * 
 * @minItems 0
 * @maxItems 1000
 * 
 * Items: Id.
 */
readonly ids?: readonly string[]
/**
 * That the answer accepts weaker protection in so many words.
 */
readonly accepts?: "weaker-protection"
/**
 * Why.
 */
readonly note?: string
}
/**
 * Two loudspeakers on one output.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Join".
 */
export interface Join {
/**
 * Loudspeaker that lost its output.
 */
readonly loudspeakerId: string
/**
 * Loudspeaker whose output feeds both.
 */
readonly intoLoudspeakerId: string
}
/**
 * A program channel that plays through others.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Fold".
 */
export interface Fold {
/**
 * Program channel of the old configuration.
 */
readonly channelId: string
/**
 * Labels of the program channels of the new configuration that play it.
 * 
 * @minItems 1
 * @maxItems 4
 */
readonly into: readonly string[]
/**
 * Label of the old program channel whose equalizer it has from now on; absent where it keeps its own.
 */
readonly equalizedAs?: string
}
/**
 * A cable and where it goes. One that carries two channels (AES3, S/PDIF) is one item.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Cable".
 */
export interface Cable {
/**
 * Stable key.
 */
readonly id: string
/**
 * Direction seen from the unit.
 */
readonly direction: ("input" | "output" | "control")
/**
 * Kind of signal.
 */
readonly kind: string
/**
 * What it carries: loudspeaker and way, source and channels, trigger.
 */
readonly words: string
/**
 * Addresses of what it serves.
 * 
 * @minItems 0
 * @maxItems 64
 * 
 * Items: Address.
 */
readonly items: readonly string[]
/**
 * Connectors on the old unit.
 * 
 * @minItems 0
 * @maxItems 8
 */
readonly from: readonly PlugPlace[]
/**
 * Connectors on the new unit; empty: it is left unplugged.
 * 
 * @minItems 0
 * @maxItems 8
 */
readonly to: readonly PlugPlace[]
/**
 * False: it goes to the place that answers to its old one.
 */
readonly moved: boolean
}
/**
 * A connector as a person finds it.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "PlugPlace".
 */
export interface PlugPlace {
/**
 * Connector of the unit profile.
 */
readonly connectorId: string
/**
 * As printed on the unit.
 */
readonly label: string
/**
 * Physical connector or block.
 */
readonly group: string
/**
 * Order inside the group, from 1.
 */
readonly position: number
/**
 * Order of the group along the rear panel.
 */
readonly rack: number
/**
 * Mechanical style.
 */
readonly style: string
/**
 * Pins of a DB-25 by AES59, where the profile names it.
 */
readonly pins?: string
}
/**
 * How one equalizer was carried over.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "EqFitReport".
 */
export interface EqFitReport {
/**
 * Address of the equalizer.
 */
readonly address: string
/**
 * Whose equalizer.
 */
readonly words: string
/**
 * copied: the same filters; rounded: the same filters on the unit's steps; refitted: other filters.
 */
readonly method: ("copied" | "rounded" | "refitted")
/**
 * Effort that was used.
 */
readonly effort: ("quick" | "thorough")
/**
 * Filters used.
 */
readonly bandsUsed: number
/**
 * Weighted rms error of the response in dB.
 */
readonly rmsDb: number
/**
 * Largest error in dB, with its sign.
 */
readonly maxDb: number
/**
 * Where the largest error is, in hertz.
 */
readonly maxAtHz: number
}
/**
 * Result of choosing steps for levels or delays; the unit is in 'unit'. Each spread is the smallest possible once the ones before it are.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "Staging".
 */
export interface Staging {
/**
 * Unit of the numbers.
 */
readonly unit: ("dB" | "ms")
/**
 * Largest difference that came in between two ways of one loudspeaker.
 */
readonly betweenWays: number
/**
 * Largest difference between loudspeakers and channels.
 */
readonly betweenChannels: number
/**
 * Largest difference between presets.
 */
readonly betweenPresets: number
/**
 * What all paths have in common: positive is louder or later.
 */
readonly common: number
/**
 * Largest deviation of any one path from its old total, common part included.
 */
readonly largest: number
}
/**
 * A high-pass or low-pass as it was decided.
 * 
 * This interface was referenced by `PlanDocument`'s JSON-Schema
 * via the `definition` "DecidedCrossover".
 */
export interface DecidedCrossover1 {
/**
 * Family.
 */
readonly family: ("butterworth" | "bessel" | "linkwitz-riley")
/**
 * Order; the slope is 6 dB per octave for each.
 */
readonly order: number
/**
 * Corner frequency in hertz.
 */
readonly frequencyHz: number
/**
 * Of a Bessel filter: what its corner is.
 */
readonly normalization?: ("phase" | "magnitude")
}
