// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Which decisions file answers for which screens, where one file serves many like screens.
 */
export interface DecisionClasses {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.decision-classes"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
/**
 * Classes of screens; the first that names a screen counts.
 * 
 * @minItems 1
 * @maxItems 1000
 */
readonly classes: readonly DecisionClass[]
}
/**
 * Screens that get the same answers.
 * 
 * This interface was referenced by `DecisionClasses`'s JSON-Schema
 * via the `definition` "DecisionClass".
 */
export interface DecisionClass {
/**
 * Name of the class.
 */
readonly name: string
/**
 * Screens as site and screen id joined by a slash; a star stands for any text without a slash.
 * 
 * @minItems 1
 * @maxItems 10000
 * 
 * Items: Screen.
 */
readonly screens: readonly string[]
/**
 * Decisions file, named from the folder of this file.
 */
readonly decisions: string
}
