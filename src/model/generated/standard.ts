// Made by `npm run generate` from schemas/. Do not edit.

/**
 * One line of a standard.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "StandardLine".
 */
export type StandardLine = (ExactlyLine | WithinLine | LeftLine | TheseOnlyLine | AtLeastLine)

/**
 * A house standard: what all screens of a class have in common, what may differ within limits, and what each screen settles for itself. It decides what the house decides; of what was found by measuring a room it can only ask.
 */
export interface Standard {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.standard"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
/**
 * Stable key of the standard.
 */
readonly id: string
/**
 * Version of this standard: MAJOR.MINOR.PATCH of Semantic Versioning 2.0.0. MAJOR: screens have to change something by hand; MINOR: holds more or something else; PATCH: words.
 */
readonly version: string
/**
 * Name for people.
 */
readonly title: string
/**
 * Date of issue, RFC 3339 full-date.
 */
readonly issuedOn: string
/**
 * Who issued it: a team or a role.
 */
readonly issuedBy: string
/**
 * Why there is this standard, or what this version changes.
 */
readonly reason?: string
readonly screens: StandardClass
/**
 * The scale that fader marks in this standard are meant on: marks with their levels, straight lines between them, as in a unit profile. Every screen then gets the mark that comes nearest to the level on its own unit. Left out: a mark is a mark of each screen's own unit.
 * 
 * @minItems 2
 * @maxItems 200
 */
readonly faderScale?: readonly HouseFaderMark[]
/**
 * What is held, line by line.
 * 
 * @minItems 0
 * @maxItems 10000
 */
readonly lines: readonly StandardLine[]
}
/**
 * Which screens the standard is for. What is left out does not restrict.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "StandardClass".
 */
export interface StandardClass {
/**
 * Formats of the auditorium.
 * 
 * @minItems 1
 * @maxItems 6
 * 
 * Items: Format.
 */
readonly formats?: readonly ("mono" | "stereo" | "5.1" | "6.1" | "7.1DS" | "7.1SDS")[]
/**
 * How the loudspeakers behind the screen are driven: every one of them in one of these ways.
 * 
 * @minItems 1
 * @maxItems 4
 * 
 * Items: Drive.
 */
readonly drives?: readonly ("passive" | "active-2" | "active-3" | "active-4")[]
/**
 * Unit profiles.
 * 
 * @minItems 1
 * @maxItems 100
 * 
 * Items: Unit profile.
 */
readonly profileIds?: readonly string[]
/**
 * Sites; a star stands for any text: 'lantern-*'.
 * 
 * @minItems 1
 * @maxItems 10000
 * 
 * Items: Pattern.
 */
readonly sites?: readonly string[]
}
/**
 * One mark and its level.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "HouseFaderMark".
 */
export interface HouseFaderMark {
/**
 * Mark on the scale.
 */
readonly mark: number
/**
 * Level in dB.
 */
readonly levelDb: number
}
/**
 * A value that every screen has.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "ExactlyLine".
 */
export interface ExactlyLine {
/**
 * Place by ids, parts joined by slashes: 'presets/feature-71/levelDb'. A star stands for any text inside one part: 'presets/* /levelDb', 'presets/trailers-* /levelDb'. Where several lines meet one place, the one with more of it spelled out counts, part by part from the left; of two that are alike the later.
 */
readonly place: string
/**
 * How it is held.
 */
readonly hold: "exactly"
/**
 * Value; null: nothing may stand there.
 */
readonly value: (string | number | boolean | null)
/**
 * Why.
 */
readonly reason?: string
}
/**
 * A number that each screen chooses within limits. The unit stands in the name of the place.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "WithinLine".
 */
export interface WithinLine {
/**
 * Place by ids, parts joined by slashes: 'presets/feature-71/levelDb'. A star stands for any text inside one part: 'presets/* /levelDb', 'presets/trailers-* /levelDb'. Where several lines meet one place, the one with more of it spelled out counts, part by part from the left; of two that are alike the later.
 */
readonly place: string
/**
 * How it is held.
 */
readonly hold: "within"
/**
 * Least value.
 */
readonly min: number
/**
 * Greatest value.
 */
readonly max: number
/**
 * Why.
 */
readonly reason?: string
}
/**
 * What each screen settles for itself.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "LeftLine".
 */
export interface LeftLine {
/**
 * Place by ids, parts joined by slashes: 'presets/feature-71/levelDb'. A star stands for any text inside one part: 'presets/* /levelDb', 'presets/trailers-* /levelDb'. Where several lines meet one place, the one with more of it spelled out counts, part by part from the left; of two that are alike the later.
 */
readonly place: string
/**
 * How it is held.
 */
readonly hold: "left-to-screen"
/**
 * Why.
 */
readonly reason?: string
}
/**
 * A list that has these items and no other. What an item says besides its id is held exactly, as far as the house decides it; lists inside it are held as these and no other.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "TheseOnlyLine".
 */
export interface TheseOnlyLine {
/**
 * Place by ids, parts joined by slashes: 'presets/feature-71/levelDb'. A star stands for any text inside one part: 'presets/* /levelDb', 'presets/trailers-* /levelDb'. Where several lines meet one place, the one with more of it spelled out counts, part by part from the left; of two that are alike the later.
 */
readonly place: string
/**
 * How it is held.
 */
readonly hold: "these-only"
/**
 * Items.
 * 
 * @minItems 0
 * @maxItems 1000
 */
readonly items: readonly StandardItem[]
/**
 * Why.
 */
readonly reason?: string
}
/**
 * An item of a list as a configuration has it, with its id (or channelId) and as much of the rest as is held. Where screens lack the item, it is added: then it needs all that a configuration asks of it, but a preset without a slot takes the lowest free one. What the room and the unit decide (filters, connectors) serves only where the item is added; afterwards it is the screen's own.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "StandardItem".
 */
export interface StandardItem {
[k: string]: unknown
}
/**
 * A list that has at least these items; a screen may have more. What an item says besides its id is held exactly, as far as the house decides it.
 * 
 * This interface was referenced by `Standard`'s JSON-Schema
 * via the `definition` "AtLeastLine".
 */
export interface AtLeastLine {
/**
 * Place by ids, parts joined by slashes: 'presets/feature-71/levelDb'. A star stands for any text inside one part: 'presets/* /levelDb', 'presets/trailers-* /levelDb'. Where several lines meet one place, the one with more of it spelled out counts, part by part from the left; of two that are alike the later.
 */
readonly place: string
/**
 * How it is held.
 */
readonly hold: "at-least"
/**
 * Items.
 * 
 * @minItems 0
 * @maxItems 1000
 */
readonly items: readonly StandardItem[]
/**
 * Why.
 */
readonly reason?: string
}
