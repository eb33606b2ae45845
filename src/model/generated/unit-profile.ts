// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Kind of signal.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "ConnectorKind".
 */
export type ConnectorKind = ("aes3" | "aes67" | "spdif" | "analog" | "microphone" | "contact" | "serial")
/**
 * The values that the unit takes for one number.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "NumberGrid".
 */
export type NumberGrid = (StepGrid | ListGrid | LogGrid)

/**
 * What a model of sound processor can do. Data: adding a model takes no code.
 */
export interface UnitProfile {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.unit-profile"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * Stable key.
 */
readonly id: string
/**
 * Revision of this profile. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly revision: string
/**
 * Name of the model.
 */
readonly label: string
/**
 * Firmware for which the profile holds: a semantic version range.
 */
readonly firmwareRange: string
/**
 * Sample rates.
 * 
 * @minItems 1
 * @maxItems 8
 * 
 * Items: Hertz.
 */
readonly sampleRatesHz: readonly number[]
readonly latency: UnitLatency
/**
 * Connectors, one item for each channel.
 * 
 * @minItems 1
 * @maxItems 512
 */
readonly connectors: readonly Connector[]
readonly labels: LabelAbility
readonly sources: SourceAbility
readonly channels: ChannelAbility
readonly equalizations: EqualizationAbility
readonly presets: PresetAbility
readonly outputs: OutputAbility
readonly fader: FaderAbility
readonly automation: AutomationAbility
readonly operation: OperationAbility
/**
 * Remarks.
 */
readonly notes?: string
}
/**
 * From input to output with all delays at 0.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "UnitLatency".
 */
export interface UnitLatency {
/**
 * Part that counts in samples.
 */
readonly samples: number
/**
 * Part that does not depend on the sample rate, in milliseconds.
 */
readonly ms: number
}
/**
 * One channel of a connector: a circuit that carries one signal.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "Connector".
 */
export interface Connector {
/**
 * Stable key.
 */
readonly id: string
/**
 * As printed on the unit.
 */
readonly label: string
/**
 * Direction seen from the unit.
 */
readonly direction: ("input" | "output" | "control")
readonly kind: ConnectorKind
/**
 * Physical connector or block that holds it, as printed.
 */
readonly group: string
/**
 * Order inside the group, from 1.
 */
readonly position: number
/**
 * Order of the group as a person works along the rear panel, from 1.
 */
readonly rack: number
/**
 * Mechanical style.
 */
readonly style: ("db25" | "xlr" | "terminal-block" | "rj45" | "coaxial" | "de9")
/**
 * Published wiring of a DB-25, where the maker states it.
 */
readonly wiring?: ("aes59-analog" | "aes59-digital")
/**
 * AES3 or S/PDIF line that carries the channel: two channels share one.
 */
readonly line?: string
/**
 * Channel on that line.
 */
readonly lineChannel?: number
}
/**
 * Names that the unit can show.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "LabelAbility".
 */
export interface LabelAbility {
/**
 * Longest name in characters.
 */
readonly maxLength: number
/**
 * Shortest name in characters. Default 0.
 */
readonly minLength?: number
/**
 * The characters that a name may hold: each a character or a range of them by code point, such as 'A-Z'.
 * 
 * @minItems 1
 * @maxItems 200
 * 
 * Items: Character, or the first and the last of a range with '-' between.
 */
readonly characters: readonly string[]
}
/**
 * Sources.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "SourceAbility".
 */
export interface SourceAbility {
/**
 * How many.
 */
readonly max: number
/**
 * Channels in one source.
 */
readonly channelsMax: number
readonly gainDb: NumberGrid
}
/**
 * Equal steps: min, min + step, ... max.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "StepGrid".
 */
export interface StepGrid {
/**
 * Kind of grid.
 */
readonly kind: "step"
/**
 * Smallest value.
 */
readonly min: number
/**
 * Largest value.
 */
readonly max: number
/**
 * Step.
 */
readonly step: number
}
/**
 * Just these values, ascending.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "ListGrid".
 */
export interface ListGrid {
/**
 * Kind of grid.
 */
readonly kind: "list"
/**
 * Values.
 * 
 * @minItems 1
 * @maxItems 4096
 * 
 * Items: Value.
 */
readonly values: readonly number[]
}
/**
 * Equal ratios: referenceHz · 2^(k/perOctave) for whole k, inside min and max.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "LogGrid".
 */
export interface LogGrid {
/**
 * Kind of grid.
 */
readonly kind: "log"
/**
 * Smallest value.
 */
readonly min: number
/**
 * Largest value.
 */
readonly max: number
/**
 * A value of the grid.
 */
readonly referenceHz: number
/**
 * Values to the octave.
 */
readonly perOctave: number
}
/**
 * Program channels.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "ChannelAbility".
 */
export interface ChannelAbility {
/**
 * Labels it has.
 * 
 * @minItems 1
 * @maxItems 15
 * 
 * Items: Label of SMPTE ST 428-12.
 */
readonly labels: readonly ("L" | "R" | "C" | "LFE" | "Ls" | "Rs" | "Lss" | "Rss" | "Lrs" | "Rrs" | "Lc" | "Rc" | "Cs" | "HI" | "VIN")[]
readonly levelDb: NumberGrid
readonly delay: DelayAbility
}
/**
 * A delay and its grid.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "DelayAbility".
 */
export interface DelayAbility {
/**
 * Unit of the grid's numbers: milliseconds, or samples at the unit's sample rate.
 */
readonly unit: ("ms" | "samples")
readonly grid: NumberGrid
}
/**
 * EQ sets.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "EqualizationAbility".
 */
export interface EqualizationAbility {
/**
 * How many.
 */
readonly max: number
readonly graphic?: GraphicAbility
readonly parametric?: FilterAbility
}
/**
 * A graphic equalizer at one place.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "GraphicAbility".
 */
export interface GraphicAbility {
/**
 * Bands.
 */
readonly layout: ("third-octave-27" | "third-octave-31" | "two-thirds-octave-15" | "octave-10")
readonly gainDb: NumberGrid
/**
 * Quality factor of each band. Default 2^(1/6)/(2^(1/3)-1) for third octaves.
 */
readonly q?: number
}
/**
 * Parametric filters at one place.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "FilterAbility".
 */
export interface FilterAbility {
/**
 * How many filters.
 */
readonly bands: number
/**
 * Kinds it offers.
 * 
 * @minItems 1
 * @maxItems 8
 * 
 * Items: Kind.
 */
readonly kinds: readonly ("peaking" | "low-shelf" | "high-shelf" | "high-pass" | "low-pass" | "band-pass" | "notch" | "all-pass")[]
readonly frequencyHz: NumberGrid
readonly gainDb: NumberGrid
readonly q: NumberGrid
/**
 * How the steepness of a shelf is set.
 */
readonly shelfBy?: ("q" | "slope")
readonly slope?: NumberGrid
}
/**
 * Presets.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "PresetAbility".
 */
export interface PresetAbility {
/**
 * Lowest slot number.
 */
readonly slotMin: number
/**
 * Highest slot number.
 */
readonly slotMax: number
/**
 * How many.
 */
readonly max: number
readonly levelDb: NumberGrid
readonly delay: DelayAbility
readonly routingGainDb: NumberGrid
/**
 * Crossings in one preset.
 */
readonly routingMax: number
}
/**
 * Outputs.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "OutputAbility".
 */
export interface OutputAbility {
readonly mixGainDb: NumberGrid
/**
 * Program channels in one output.
 */
readonly mixMax: number
readonly gainDb: NumberGrid
readonly delay: DelayAbility
readonly highPass: CrossoverAbility
readonly lowPass: CrossoverAbility
readonly filters?: FilterAbility
readonly limiter?: LimiterAbility
/**
 * Longest FIR filter in taps; 0 if there is none.
 */
readonly firTapsMax: number
/**
 * True: polarity can be inverted.
 */
readonly invert: boolean
}
/**
 * High-pass and low-pass of an output.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "CrossoverAbility".
 */
export interface CrossoverAbility {
/**
 * Families.
 * 
 * @minItems 1
 * @maxItems 16
 */
readonly families: readonly CrossoverFamily[]
readonly frequencyHz: NumberGrid
}
/**
 * A family of crossover filters.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "CrossoverFamily".
 */
export interface CrossoverFamily {
/**
 * Family.
 */
readonly family: ("butterworth" | "bessel" | "linkwitz-riley")
/**
 * Orders it offers.
 * 
 * @minItems 1
 * @maxItems 8
 * 
 * Items: Order.
 */
readonly orders: readonly number[]
/**
 * Bessel only: which normalization the unit's corner frequency means.
 */
readonly normalization?: ("phase" | "magnitude")
}
/**
 * Limiter of an output.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "LimiterAbility".
 */
export interface LimiterAbility {
readonly thresholdDbfs: NumberGrid
readonly attackMs: NumberGrid
readonly releaseMs: NumberGrid
}
/**
 * The main fader.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "FaderAbility".
 */
export interface FaderAbility {
/**
 * Scale: marks and their level; straight lines in dB between them.
 * 
 * @minItems 2
 * @maxItems 64
 */
readonly marks: readonly FaderMark[]
/**
 * Step of the scale.
 */
readonly step: number
}
/**
 * One mark of the fader scale and its level.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "FaderMark".
 */
export interface FaderMark {
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
 * Automation.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "AutomationAbility".
 */
export interface AutomationAbility {
/**
 * How many items.
 */
readonly max: number
/**
 * Triggers it takes.
 * 
 * @minItems 0
 * @maxItems 3
 * 
 * Items: Trigger.
 */
readonly triggers: readonly ("contact" | "serial" | "network")[]
/**
 * Actions it takes.
 * 
 * @minItems 0
 * @maxItems 5
 * 
 * Items: Action.
 */
readonly actions: readonly ("recall-preset" | "mute" | "unmute" | "set-fader" | "select-source")[]
/**
 * Longest trigger text in characters.
 */
readonly textMax: number
}
/**
 * Further abilities.
 * 
 * This interface was referenced by `UnitProfile`'s JSON-Schema
 * via the `definition` "OperationAbility".
 */
export interface OperationAbility {
/**
 * It has an emergency mute contact.
 */
readonly emergencyMute: boolean
/**
 * It has a booth monitor feed.
 */
readonly boothMonitor: boolean
/**
 * It has a hearing-impaired feed.
 */
readonly hearingImpaired: boolean
/**
 * It has a narration feed.
 */
readonly narration: boolean
/**
 * It has a paging input.
 */
readonly paging: boolean
/**
 * Network interfaces.
 */
readonly networkInterfacesMax: number
}
