// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Answers to the questions of a plan. One file may serve many like screens: questions are named by their place.
 */
export interface Decisions {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.decisions"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
/**
 * Profile of the old unit for which the answers were given.
 */
readonly fromProfileId: string
/**
 * Profile of the new unit for which the answers were given.
 */
readonly toProfileId: string
/**
 * Effort of the refits. quick: about 100 ms for each equalizer; thorough: about 500 ms. Default thorough.
 */
readonly effort?: ("quick" | "thorough")
/**
 * Answers.
 * 
 * @minItems 0
 * @maxItems 10000
 */
readonly answers: readonly DecisionAnswer[]
/**
 * Cables that have to go, or must not go, to a connector of the new unit.
 * 
 * @minItems 0
 * @maxItems 2000
 */
readonly connectors?: readonly ConnectorWish[]
/**
 * Names chosen by hand where the old one does not fit.
 * 
 * @minItems 0
 * @maxItems 2000
 */
readonly labels?: readonly LabelWish[]
/**
 * Remarks.
 */
readonly notes?: string
}
/**
 * The answer to one question.
 * 
 * This interface was referenced by `Decisions`'s JSON-Schema
 * via the `definition` "DecisionAnswer".
 */
export interface DecisionAnswer {
/**
 * Question. A star stands for any text without a slash: 'outputs/* /highPass' answers for every output; an exact id goes before.
 */
readonly questionId: string
/**
 * Option of the question; null: not decided yet.
 */
readonly optionId: (string | null)
/**
 * Text, where the option takes one.
 */
readonly text?: string
/**
 * Ids, where the option takes them.
 * 
 * @minItems 0
 * @maxItems 1000
 * 
 * Items: Id.
 */
readonly ids?: readonly string[]
/**
 * Has to stand here when the option protects less than before.
 */
readonly accepts?: "weaker-protection"
/**
 * True: no error when the question does not come up, as on a screen without that part. Default false.
 */
readonly ifAsked?: boolean
/**
 * Why.
 */
readonly note?: string
/**
 * The question in words, for whoever fills in the file; not read.
 */
readonly question?: string
/**
 * The options in words, for whoever fills in the file; not read.
 * 
 * @minItems 0
 * @maxItems 100
 * 
 * Items: Option.
 */
readonly choices?: readonly string[]
}
/**
 * A wish for one cable.
 * 
 * This interface was referenced by `Decisions`'s JSON-Schema
 * via the `definition` "ConnectorWish".
 */
export interface ConnectorWish {
/**
 * Address of what the cable serves: an output, a source channel, an automation item or 'operation/emergencyMute'.
 */
readonly item: string
/**
 * on: it goes there; not-on: it does not go there.
 */
readonly rule: ("on" | "not-on")
/**
 * Connector of the new unit.
 */
readonly connectorId: string
}
/**
 * A name chosen by hand.
 * 
 * This interface was referenced by `Decisions`'s JSON-Schema
 * via the `definition` "LabelWish".
 */
export interface LabelWish {
/**
 * Address of the label.
 */
readonly address: string
/**
 * The name.
 */
readonly label: string
}
