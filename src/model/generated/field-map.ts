// Made by `npm run generate` from schemas/. Do not edit.

/**
 * How the export is built.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "ExportSource".
 */
export type ExportSource = (JsonSource | XmlSource | TableSource | KeyValueSource | LinesSource)
/**
 * One rule.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "MapRule".
 */
export type MapRule = (ValueRule | FixedRule | JoinRule | NumbersRule | ListRule)
/**
 * How a value of the export becomes one of the configuration, and back.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "Conversion".
 */
export type Conversion = (TextConversion | NumberConversion | LevelConversion | TimeConversion | FrequencyConversion | WidthConversion | OrderConversion | LengthConversion | TableConversion | ChoiceConversion | TemplateConversion)

/**
 * How one kind of export of a unit reads into a configuration and is written back. Data only: no code.
 */
export interface FieldMap {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.field-map"
/**
 * Version of this schema that the document follows.
 */
readonly schemaVersion: string
/**
 * Stable key.
 */
readonly id: string
/**
 * Revision of the map.
 */
readonly revision: string
/**
 * Name.
 */
readonly label: string
/**
 * Unit profile whose exports these are.
 */
readonly profileId?: string
/**
 * Remarks.
 */
readonly notes?: string
readonly source: ExportSource
/**
 * Decimal sign of numbers written as text. Default a point.
 */
readonly decimal?: ("." | ",")
/**
 * Rules, in the order in which they are read.
 * 
 * @minItems 1
 * @maxItems 400
 */
readonly rules: readonly MapRule[]
/**
 * What is left out on purpose (JSONPath, RFC 9535), with everything in it.
 * 
 * @minItems 0
 * @maxItems 400
 * 
 * Items: Part of the export.
 */
readonly ignore?: {
/**
 * Where it stands.
 */
readonly each: string
/**
 * Why.
 */
readonly reason: string
}[]
}
/**
 * JSON (RFC 8259). A place is the JSON Pointer of a value.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "JsonSource".
 */
export interface JsonSource {
/**
 * Kind.
 */
readonly kind: "json"
/**
 * Encoding of the export. A byte order mark decides where there is one. Default utf-8.
 */
readonly encoding?: ("utf-8" | "utf-16le" | "utf-16be" | "latin-1")
/**
 * Values that hold several things in one text: each such value becomes an object of its parts.
 * 
 * @minItems 1
 * @maxItems 200
 */
readonly parts?: readonly ValueParts[]
}
/**
 * One text that holds several things, such as 'LR24' or '40 Hz .. 500 Hz'.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "ValueParts".
 */
export interface ValueParts {
/**
 * Where it stands: a JSON Pointer, in which * is any name or number. With the form '{low} Hz .. {high} Hz' at '/output/* /band', a place is '/output/3/band/low'.
 */
readonly at: string
/**
 * Forms as for lines, without a place: words, and placeholders in braces. The first that fits is taken; a value that fits none stays whole.
 * 
 * @minItems 1
 * @maxItems 20
 * 
 * Items: Form.
 */
readonly forms: readonly string[]
/**
 * What stands there where there are no parts; the first is written.
 * 
 * @minItems 1
 * @maxItems 20
 * 
 * Items: Text; 'null' for JSON's null.
 */
readonly nothing?: readonly string[]
}
/**
 * XML 1.0 without document type. Members of an element: '@name' for attributes, the name of a child element, '#text' for text beside either; an element with text alone is that text.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "XmlSource".
 */
export interface XmlSource {
/**
 * Kind.
 */
readonly kind: "xml"
/**
 * Encoding of the export. A byte order mark decides where there is one. Default utf-8.
 */
readonly encoding?: ("utf-8" | "utf-16le" | "utf-16be" | "latin-1")
/**
 * Names of elements that may stand more than once: they become lists.
 * 
 * @minItems 0
 * @maxItems 1000
 * 
 * Items: Name.
 */
readonly lists?: readonly string[]
/**
 * Values that hold several things in one text: each such value becomes an object of its parts.
 * 
 * @minItems 1
 * @maxItems 200
 */
readonly parts?: readonly ValueParts[]
}
/**
 * Separated values (RFC 4180): a list of rows.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "TableSource".
 */
export interface TableSource {
/**
 * Kind.
 */
readonly kind: "table"
/**
 * Encoding of the export. A byte order mark decides where there is one. Default utf-8.
 */
readonly encoding?: ("utf-8" | "utf-16le" | "utf-16be" | "latin-1")
/**
 * What stands between two fields.
 */
readonly delimiter: string
/**
 * What encloses a field. Default a double quote.
 */
readonly quote?: string
/**
 * first-row: names the columns, a place is '/3/name'. none: a place is '/3/0'. by-mark: several tables in one file; a row whose first field begins with the mark names the columns of the rows that begin with the rest of that field, a place is '/OUT/3/name'.
 */
readonly header: ("first-row" | "none" | "by-mark")
/**
 * Mark of header rows, for by-mark.
 */
readonly mark?: string
/**
 * Values that hold several things in one text: each such value becomes an object of its parts.
 * 
 * @minItems 1
 * @maxItems 200
 */
readonly parts?: readonly ValueParts[]
/**
 * For first-row: rows ahead of the header that are no part of the table (blank lines do not count). A place in them is then '/title/0/1', one of the table '/rows/3/name'.
 */
readonly titleRows?: number
/**
 * For first-row: rows that name the columns together, such as a row of units below the names. The name is what stands in them, with spaces between; in all but the last an empty field means the same as the field to its left. Default 1.
 */
readonly headerRows?: number
/**
 * True: a row may have fewer fields than the header row, such as a line of totals. Default false.
 */
readonly ragged?: boolean
}
/**
 * Lines of a key and a value, with or without sections in square brackets. A place is '/section/key'.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "KeyValueSource".
 */
export interface KeyValueSource {
/**
 * Kind.
 */
readonly kind: "key-value"
/**
 * Encoding of the export. A byte order mark decides where there is one. Default utf-8.
 */
readonly encoding?: ("utf-8" | "utf-16le" | "utf-16be" | "latin-1")
/**
 * What stands between key and value.
 */
readonly separator: string
/**
 * True: lines of the form [name] begin a section.
 */
readonly sections: boolean
/**
 * What divides names of sections and keys into parts: with '.', 'out.3.gain' is at '/out/3/gain'.
 */
readonly divider?: string
/**
 * What begins a line that is a comment.
 * 
 * @minItems 0
 * @maxItems 8
 * 
 * Items: Mark.
 */
readonly comments?: readonly string[]
/**
 * Values that hold several things in one text: each such value becomes an object of its parts.
 * 
 * @minItems 1
 * @maxItems 200
 */
readonly parts?: readonly ValueParts[]
/**
 * Names of sections, or of keys, that may stand more than once: they become lists, so that '/output/2/gain' is in the third section [output]. What is inside another is named with it, by the divider, else by a point: 'output.gain'.
 * 
 * @minItems 0
 * @maxItems 1000
 * 
 * Items: Name.
 */
readonly lists?: readonly string[]
/**
 * What stands ahead of a double quote, and of itself, inside double quotes.
 */
readonly escape?: string
}
/**
 * Lines of words, such as commands, each of a declared form.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "LinesSource".
 */
export interface LinesSource {
/**
 * Kind.
 */
readonly kind: "lines"
/**
 * Encoding of the export. A byte order mark decides where there is one. Default utf-8.
 */
readonly encoding?: ("utf-8" | "utf-16le" | "utf-16be" | "latin-1")
/**
 * Forms; the first that fits a line is taken.
 * 
 * @minItems 1
 * @maxItems 400
 */
readonly forms: readonly LinePattern[]
/**
 * What begins a line that is a comment.
 * 
 * @minItems 0
 * @maxItems 8
 * 
 * Items: Mark.
 */
readonly comments?: readonly string[]
/**
 * Values that hold several things in one text: each such value becomes an object of its parts.
 * 
 * @minItems 1
 * @maxItems 200
 */
readonly parts?: readonly ValueParts[]
}
/**
 * One form of line.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "LinePattern".
 */
export interface LinePattern {
/**
 * Words, and placeholders in braces: {gain} is one word without spaces, {label:quoted} stands in double quotes, {text:rest} goes to the end of the line; {order:number} is digits with sign and point or comma, {family:letters} letters alone, so that '{family:letters}{order:number}' fits LR24.
 */
readonly form: string
/**
 * Where the values of the line stand: a JSON Pointer, in which placeholders are taken from the line, and '-' adds to a list.
 */
readonly at: string
}
/**
 * A field that the export holds.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "ValueRule".
 */
export interface ValueRule {
/**
 * Kind.
 */
readonly kind: "value"
/**
 * Field, from the list's item on, or from the root.
 */
readonly field: string
/**
 * Where the value stands, from the list's item on, or from the root.
 */
readonly at?: string
/**
 * True: 'at' begins at the root, and {} in it is the item's own name or number: '/delays/{}' for exports that keep the levels of all channels in one place and their delays in another. Default false.
 */
readonly root?: boolean
/**
 * Instead of 'at': part of the item's own place, 0 the last: its name or its number in the list, from zero.
 */
readonly segment?: number
readonly as?: Conversion
/**
 * What the export holds where the configuration has no such field; the first is written.
 * 
 * @minItems 1
 * @maxItems 20
 * 
 * Items: Text; 'null' for JSON's null.
 */
readonly absent?: readonly string[]
/**
 * True: the export need not have the place. Default false.
 */
readonly optional?: boolean
/**
 * Value of the configuration where the export has none.
 */
readonly default?: (string | number | boolean)
/**
 * True: never written back. Default false.
 */
readonly readOnly?: boolean
readonly when?: RuleCondition
}
/**
 * Taken as it is.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "TextConversion".
 */
export interface TextConversion {
/**
 * Kind.
 */
readonly kind: "text"
}
/**
 * A number: value = export * factor + offset.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "NumberConversion".
 */
export interface NumberConversion {
/**
 * Kind.
 */
readonly kind: "number"
/**
 * Factor; not 0. Default 1.
 */
readonly factor?: number
/**
 * What is added. Default 0; -1 turns a count from one into a count from zero.
 */
readonly offset?: number
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * A level in dB.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "LevelConversion".
 */
export interface LevelConversion {
/**
 * Kind.
 */
readonly kind: "level"
/**
 * What the export holds; ratio: of amplitudes.
 */
readonly unit: ("dB" | "tenth-dB" | "hundredth-dB" | "ratio" | "percent" | "power-ratio")
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * A time in ms.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "TimeConversion".
 */
export interface TimeConversion {
/**
 * Kind.
 */
readonly kind: "time"
/**
 * What the export holds.
 */
readonly unit: ("ms" | "s" | "us" | "samples" | "frames" | "m" | "ft")
/**
 * For samples: sample rate in Hz; that of the unit if absent.
 */
readonly sampleRateHz?: number
/**
 * For frames. Default 24.
 */
readonly framesPerSecond?: number
/**
 * For m and ft: air temperature in degrees Celsius; that of the screen if absent.
 */
readonly temperatureC?: number
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent, and for samples none.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * A frequency in Hz.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "FrequencyConversion".
 */
export interface FrequencyConversion {
/**
 * Kind.
 */
readonly kind: "frequency"
/**
 * What the export holds; octaves: above referenceHz.
 */
readonly unit: ("Hz" | "kHz" | "octaves")
/**
 * For octaves. Default 1000.
 */
readonly referenceHz?: number
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * A Q. From octaves: Q = sqrt(2^N) / (2^N - 1).
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "WidthConversion".
 */
export interface WidthConversion {
/**
 * Kind.
 */
readonly kind: "width"
/**
 * What the export holds.
 */
readonly unit: ("q" | "octaves")
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * The order of a filter. From dB per octave: 6 for each order.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "OrderConversion".
 */
export interface OrderConversion {
/**
 * Kind.
 */
readonly kind: "order"
/**
 * What the export holds.
 */
readonly unit: ("order" | "dB/octave")
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * A length in m.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "LengthConversion".
 */
export interface LengthConversion {
/**
 * Kind.
 */
readonly kind: "length"
/**
 * What the export holds.
 */
readonly unit: ("m" | "cm" | "mm" | "ft")
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * A number by a table, with straight lines between its points; beyond its ends it is refused.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "TableConversion".
 */
export interface TableConversion {
/**
 * Kind.
 */
readonly kind: "table"
/**
 * Points, ascending in the export's value.
 * 
 * @minItems 2
 * @maxItems 400
 * 
 * Items: A point.
 */
readonly points: {
/**
 * What the export holds.
 */
readonly export: number
/**
 * What the configuration holds.
 */
readonly value: number
}[]
/**
 * Text that stands after the number in the export.
 */
readonly suffix?: string
/**
 * Decimals that the export has; as many as needed if absent.
 */
readonly decimals?: number
/**
 * Decimals that are kept in the configuration; twelve significant digits if absent.
 */
readonly round?: number
}
/**
 * One of several words, also yes and no.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "ChoiceConversion".
 */
export interface ChoiceConversion {
/**
 * Kind.
 */
readonly kind: "choice"
/**
 * Choices; the first with a value is written for it.
 * 
 * @minItems 1
 * @maxItems 1000
 * 
 * Items: A choice.
 */
readonly choices: {
/**
 * What the export holds.
 */
readonly export: string
/**
 * Text, number, or yes and no.
 */
readonly value: (string | number | boolean)
}[]
}
/**
 * A text around what the export holds: with 'out-{}', 3 is out-3.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "TemplateConversion".
 */
export interface TemplateConversion {
/**
 * Kind.
 */
readonly kind: "template"
/**
 * Text with one {}.
 */
readonly text: string
/**
 * Digits to which a number is filled with zeros in the configuration.
 */
readonly pad?: number
/**
 * What is added to the number of the export, for counts from zero or one. Default 0.
 */
readonly offset?: number
}
/**
 * When a rule holds: by another field of the same item, which a rule without a condition gives.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "RuleCondition".
 */
export interface RuleCondition {
/**
 * Field.
 */
readonly field: string
/**
 * It has one of these values. Without: it has a value.
 * 
 * @minItems 1
 * @maxItems 100
 * 
 * Items: Text, number, or yes and no.
 */
readonly is?: readonly (string | number | boolean)[]
/**
 * True: the rule holds where this is not so. Default false.
 */
readonly not?: boolean
}
/**
 * A field that the export does not hold and that is always the same.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "FixedRule".
 */
export interface FixedRule {
/**
 * Kind.
 */
readonly kind: "fixed"
/**
 * Field.
 */
readonly field: string
/**
 * Text, number, or yes and no.
 */
readonly value: (string | number | boolean)
readonly when?: RuleCondition
}
/**
 * A key made of other fields of the same item.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "JoinRule".
 */
export interface JoinRule {
/**
 * Kind.
 */
readonly kind: "join"
/**
 * Field.
 */
readonly field: string
/**
 * Text with fields in braces.
 */
readonly text: string
}
/**
 * A plain list of numbers.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "NumbersRule".
 */
export interface NumbersRule {
/**
 * Kind.
 */
readonly kind: "numbers"
/**
 * Field.
 */
readonly field: string
/**
 * Where each number stands (JSONPath, RFC 9535).
 */
readonly each?: string
/**
 * Instead of 'each': one text with all of them.
 */
readonly at?: string
/**
 * What stands between the numbers of one text.
 */
readonly separator?: string
readonly as?: Conversion
/**
 * True: the export need not have any. Default false.
 */
readonly optional?: boolean
}
/**
 * A list: each item by the rules inside.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "ListRule".
 */
export interface ListRule {
/**
 * Kind.
 */
readonly kind: "list"
/**
 * List of the configuration.
 */
readonly list: string
/**
 * Where the items stand (JSONPath, RFC 9535); $ is the item around the list, or the root.
 */
readonly each: string
/**
 * item: inside the item around the list. root: anywhere in the export. Default item.
 */
readonly within?: ("item" | "root")
/**
 * Which of the items found belong here.
 * 
 * @minItems 1
 * @maxItems 3
 */
readonly where?: readonly RowMatch[]
readonly unused?: UnusedItem
/**
 * True: the export always has these items; writing adds none and takes none away. So it is with 'unused' too. Default false.
 */
readonly fixed?: boolean
/**
 * True: where there are no items there is no list. Default false.
 */
readonly optional?: boolean
/**
 * Rules of an item.
 * 
 * @minItems 1
 * @maxItems 200
 */
readonly rules: readonly MapRule[]
}
/**
 * Which rows belong to an item: those whose value is the item's.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "RowMatch".
 */
export interface RowMatch {
/**
 * Where it stands in the row.
 */
readonly at: string
/**
 * 1 the item that the list is in, 2 the one around that. Default 1.
 */
readonly ancestor?: number
/**
 * Field of that item.
 */
readonly field: string
readonly as?: Conversion
}
/**
 * An item of the export that stands for nothing.
 * 
 * This interface was referenced by `FieldMap`'s JSON-Schema
 * via the `definition` "UnusedItem".
 */
export interface UnusedItem {
/**
 * Where it shows.
 */
readonly at: string
/**
 * What stands there then; the first is written where the configuration has no such item.
 * 
 * @minItems 1
 * @maxItems 20
 * 
 * Items: Text.
 */
readonly values: readonly string[]
/**
 * What is written there when the item comes into use and no rule writes the place.
 */
readonly used?: string
}
