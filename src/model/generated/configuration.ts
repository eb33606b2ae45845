// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Soundfield group of SMPTE ST 428-12:2013, or stereo (SMPTE ST 2067-8:2013).
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Format".
 */
export type Format = ("mono" | "stereo" | "5.1" | "6.1" | "7.1DS" | "7.1SDS")
/**
 * Kind of interface: AES3 digital, AES67 network, analogue multichannel, S/PDIF, analogue stereo, microphone.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "SourceKind".
 */
export type SourceKind = ("aes3" | "aes67" | "analog-multichannel" | "spdif" | "analog-stereo" | "microphone")
/**
 * Channel label of SMPTE ST 428-12:2013.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "ChannelLabel".
 */
export type ChannelLabel = ("L" | "R" | "C" | "LFE" | "Ls" | "Rs" | "Lss" | "Rss" | "Lrs" | "Rrs" | "Lc" | "Rc" | "Cs" | "HI" | "VIN")
/**
 * Bands of a graphic equalizer, at the exact base-ten mid-bands of IEC 61260-1: third-octave-27 is 40 Hz to 16 kHz, third-octave-31 is 20 Hz to 20 kHz, two-thirds-octave-15 is 25 Hz to 16 kHz, octave-10 is 31.5 Hz to 16 kHz (nominal).
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "GraphicLayout".
 */
export type GraphicLayout = ("third-octave-27" | "third-octave-31" | "two-thirds-octave-15" | "octave-10")
/**
 * One parametric filter of the Audio EQ Cookbook (W3C Working Group Note, 8 June 2021).
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "EqBand".
 */
export type EqBand = (PeakingFilter | ShelfFilter | PassFilter | AllPassFilter)
/**
 * Where a loudspeaker stands.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Placement".
 */
export type Placement = ("screen-left" | "screen-left-center" | "screen-center" | "screen-right-center" | "screen-right" | "subwoofer" | "surround-left" | "surround-right" | "surround-left-side" | "surround-right-side" | "surround-left-rear" | "surround-right-rear" | "surround-rear")
/**
 * passive: one amplifier channel; active-n: n ways with an amplifier channel each.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Drive".
 */
export type Drive = ("passive" | "active-2" | "active-3" | "active-4")
/**
 * Part of the spectrum that a way plays.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "WayBand".
 */
export type WayBand = ("full" | "lf" | "mf" | "hf" | "vhf" | "sub")
/**
 * What an output feeds.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Feed".
 */
export type Feed = (LoudspeakerFeed | HearingImpairedFeed | NarrationFeed | BoothMonitorFeed | SpareFeed)
/**
 * Family of crossover filters.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "FilterFamily".
 */
export type FilterFamily = ("butterworth" | "bessel" | "linkwitz-riley")
/**
 * inverted: multiplied by -1.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Polarity".
 */
export type Polarity = ("normal" | "inverted")
/**
 * What starts an automation item.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Trigger".
 */
export type Trigger = (ContactTrigger | SerialTrigger | NetworkTrigger)
/**
 * What an automation item does.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Action".
 */
export type Action = (RecallAction | MuteAction | FaderAction | SourceAction)

/**
 * Everything that a cinema sound processor holds for one auditorium. Every list is keyed by a stable id, never by position; numbers carry their unit in the name. Passwords and the like have no place here.
 */
export interface Configuration {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.configuration"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
readonly screen: Screen
readonly unit: Unit
/**
 * Sources.
 * 
 * @minItems 0
 * @maxItems 64
 */
readonly sources: readonly Source[]
/**
 * Program channels.
 * 
 * @minItems 1
 * @maxItems 32
 */
readonly channels: readonly ProgramChannel[]
/**
 * EQ sets.
 * 
 * @minItems 0
 * @maxItems 64
 */
readonly equalizations: readonly EqSet[]
/**
 * Presets.
 * 
 * @minItems 0
 * @maxItems 1000
 */
readonly presets: readonly Preset[]
/**
 * Loudspeakers.
 * 
 * @minItems 0
 * @maxItems 128
 */
readonly loudspeakers: readonly Loudspeaker[]
/**
 * Outputs.
 * 
 * @minItems 0
 * @maxItems 256
 */
readonly outputs: readonly Output[]
readonly operation: Operation
/**
 * Automation.
 * 
 * @minItems 0
 * @maxItems 1000
 */
readonly automation: readonly AutomationItem[]
readonly network: Network
readonly calibration?: Calibration
/**
 * Remarks on the whole configuration.
 */
readonly notes?: string
}
/**
 * The auditorium.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Screen".
 */
export interface Screen {
/**
 * Stable key of the site.
 */
readonly siteId: string
/**
 * Name of the site.
 */
readonly siteName: string
/**
 * Stable key of the screen inside the site.
 */
readonly screenId: string
/**
 * Name of the screen.
 */
readonly screenName: string
readonly format: Format
/**
 * Number of seats.
 */
readonly seats: number
/**
 * Air temperature for the speed of sound, in degrees Celsius.
 */
readonly temperatureC: number
/**
 * Delay of the picture behind the server's output in milliseconds.
 */
readonly videoLatencyMs: number
/**
 * Inner size of the room.
 */
readonly geometry?: {
/**
 * Screen to rear wall in metres.
 */
readonly lengthM: number
/**
 * Width in metres.
 */
readonly widthM: number
/**
 * Height in metres.
 */
readonly heightM: number
}
/**
 * Remarks.
 */
readonly notes?: string
}
/**
 * The unit in the booth.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Unit".
 */
export interface Unit {
/**
 * Unit profile that says what this model can do.
 */
readonly profileId: string
/**
 * Revision of the profile that was used. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly profileRevision: string
/**
 * Serial number as on the unit.
 */
readonly serial: string
/**
 * Firmware version. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly firmware: string
/**
 * Sample rate of the signal processing in hertz.
 */
readonly sampleRateHz: number
/**
 * Name by which the unit calls itself.
 */
readonly label: string
}
/**
 * A group of input channels.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Source".
 */
export interface Source {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name as the unit shows it.
 */
readonly label: string
readonly kind: SourceKind
/**
 * How positions map to labels: isdcf-doc4-2017 (ISDCF Document 4 of 2017-06-29, by the preset's format), or as-labelled (each channel says what it carries). Never guessed.
 */
readonly assignment: ("isdcf-doc4-2017" | "as-labelled")
/**
 * Latency of the source before the unit in milliseconds, as measured or stated; 0 if unknown.
 */
readonly latencyMs: number
/**
 * Channels of the source.
 * 
 * @minItems 1
 * @maxItems 64
 */
readonly channels: readonly SourceChannel[]
}
/**
 * One channel of a source.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "SourceChannel".
 */
export interface SourceChannel {
/**
 * Stable key, unique in the whole configuration among source channels.
 */
readonly id: string
/**
 * Position of the channel in the source's programme, from 1 (the numbering of ISDCF Document 4).
 */
readonly position: number
/**
 * Input connector of the unit profile that carries it.
 */
readonly connectorId: string
/**
 * What the channel carries, where the source's assignment is 'as-labelled'. Labels of SMPTE ST 428-12; motion-data, sync-signal and sign-language-video are data carried as PCM.
 */
readonly carries?: ("L" | "R" | "C" | "LFE" | "Ls" | "Rs" | "Lss" | "Rss" | "Lrs" | "Rrs" | "Lc" | "Rc" | "Cs" | "HI" | "VIN" | "motion-data" | "sync-signal" | "sign-language-video" | "mono" | "unused")
/**
 * Input trim in dB.
 */
readonly gainDb: number
}
/**
 * A program channel: the end of the A-chain, the start of the B-chain.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "ProgramChannel".
 */
export interface ProgramChannel {
/**
 * Stable key; by custom the label itself.
 */
readonly id: string
readonly label: ChannelLabel
/**
 * Level trim of the channel in dB.
 */
readonly levelDb: number
/**
 * Delay of the channel in milliseconds.
 */
readonly delayMs: number
/**
 * True: the channel is silent.
 */
readonly mute: boolean
}
/**
 * An EQ set: an equalizer for each program channel. Presets choose one.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "EqSet".
 */
export interface EqSet {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name as the unit shows it.
 */
readonly label: string
/**
 * One item for each program channel that has an equalizer.
 * 
 * @minItems 0
 * @maxItems 32
 */
readonly channels: readonly ChannelEq[]
}
/**
 * The equalizer of one program channel in one EQ set.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "ChannelEq".
 */
export interface ChannelEq {
/**
 * Program channel; the key of this list.
 */
readonly channelId: string
readonly graphic?: GraphicEq
/**
 * Parametric filters in processing order.
 * 
 * @minItems 0
 * @maxItems 64
 */
readonly parametric?: readonly EqBand[]
}
/**
 * Graphic equalizer: one gain for each fixed band, ascending in frequency, at the exact base-ten mid-bands of IEC 61260-1.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "GraphicEq".
 */
export interface GraphicEq {
readonly layout: GraphicLayout
/**
 * Gain of each band in dB, lowest band first; as many as the layout has bands.
 * 
 * @minItems 10
 * @maxItems 31
 * 
 * Items: Gain in dB.
 */
readonly gainsDb: readonly number[]
/**
 * False: bypassed. Default true.
 */
readonly enabled?: boolean
}
/**
 * Peaking (bell) filter.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "PeakingFilter".
 */
export interface PeakingFilter {
/**
 * Stable key of the filter inside its list.
 */
readonly id: string
/**
 * Kind of filter.
 */
readonly kind: "peaking"
/**
 * False: the filter is bypassed but its values are kept. Default true.
 */
readonly enabled?: boolean
/**
 * Centre or corner frequency in hertz.
 */
readonly frequencyHz: number
/**
 * Gain in dB.
 */
readonly gainDb: number
/**
 * Quality factor, no unit. For peaking the Cookbook's Q: a boost and a cut of equal dB and Q cancel.
 */
readonly q: number
}
/**
 * Shelving filter, its steepness by Q or by the Cookbook's shelf slope S: exactly one of the two.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "ShelfFilter".
 */
export interface ShelfFilter {
/**
 * Stable key of the filter inside its list.
 */
readonly id: string
/**
 * Kind of filter.
 */
readonly kind: ("low-shelf" | "high-shelf")
/**
 * False: the filter is bypassed but its values are kept. Default true.
 */
readonly enabled?: boolean
/**
 * Centre or corner frequency in hertz.
 */
readonly frequencyHz: number
/**
 * Gain in dB.
 */
readonly gainDb: number
/**
 * Quality factor, no unit. For peaking the Cookbook's Q: a boost and a cut of equal dB and Q cancel.
 */
readonly q?: number
/**
 * Shelf slope S of the Cookbook, no unit; 1 is the steepest without overshoot.
 */
readonly slope?: number
}
/**
 * Second-order high-pass, low-pass, band-pass (0 dB at its peak) or notch.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "PassFilter".
 */
export interface PassFilter {
/**
 * Stable key of the filter inside its list.
 */
readonly id: string
/**
 * Kind of filter.
 */
readonly kind: ("high-pass" | "low-pass" | "band-pass" | "notch")
/**
 * False: the filter is bypassed but its values are kept. Default true.
 */
readonly enabled?: boolean
/**
 * Centre or corner frequency in hertz.
 */
readonly frequencyHz: number
/**
 * Quality factor, no unit. For peaking the Cookbook's Q: a boost and a cut of equal dB and Q cancel.
 */
readonly q: number
}
/**
 * All-pass of first or second order: changes phase only.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "AllPassFilter".
 */
export interface AllPassFilter {
/**
 * Stable key of the filter inside its list.
 */
readonly id: string
/**
 * Kind of filter.
 */
readonly kind: "all-pass"
/**
 * False: the filter is bypassed but its values are kept. Default true.
 */
readonly enabled?: boolean
/**
 * Centre or corner frequency in hertz.
 */
readonly frequencyHz: number
/**
 * Order of the all-pass.
 */
readonly order: number
/**
 * Quality factor, no unit. For peaking the Cookbook's Q: a boost and a cut of equal dB and Q cancel.
 */
readonly q?: number
}
/**
 * What a show calls for: source, format, routing, EQ set, level and program delay.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Preset".
 */
export interface Preset {
/**
 * Stable key.
 */
readonly id: string
/**
 * Number under which the unit recalls it.
 */
readonly slot: number
/**
 * Name as the unit shows it.
 */
readonly label: string
/**
 * Source.
 */
readonly sourceId: string
readonly format: Format
/**
 * EQ set.
 */
readonly equalizationId: string
/**
 * Level offset of the preset in dB.
 */
readonly levelDb: number
/**
 * Program delay in milliseconds, for lip sync.
 */
readonly delayMs: number
/**
 * Fader setting that the recall brings, on the unit's own scale; absent: the fader stays.
 */
readonly faderMark?: number
/**
 * Crossings. A crossing that is not listed is off.
 * 
 * @minItems 0
 * @maxItems 1024
 */
readonly routing: readonly Route[]
/**
 * Why this preset differs from others of its format, in words.
 */
readonly reason?: string
}
/**
 * One crossing of the routing: a source channel feeds a program channel.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Route".
 */
export interface Route {
/**
 * Stable key inside the preset.
 */
readonly id: string
/**
 * Channel of the preset's source.
 */
readonly sourceChannelId: string
/**
 * Program channel.
 */
readonly channelId: string
/**
 * Gain in dB.
 */
readonly gainDb: number
}
/**
 * A loudspeaker, or an array of loudspeakers fed alike.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Loudspeaker".
 */
export interface Loudspeaker {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name in the screen's own words.
 */
readonly label: string
readonly placement: Placement
readonly drive: Drive
/**
 * Number of cabinets.
 */
readonly boxes: number
/**
 * Distance from the reference seat to the nearest cabinet in metres.
 */
readonly distanceM?: number
/**
 * Ways, lowest band first.
 * 
 * @minItems 1
 * @maxItems 4
 */
readonly ways: readonly Way[]
}
/**
 * One way of a loudspeaker: the drivers that one amplifier channel feeds.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Way".
 */
export interface Way {
/**
 * Stable key inside the loudspeaker; by custom the band.
 */
readonly id: string
readonly band: WayBand
/**
 * Lowest high-pass corner that the loudspeaker data sheet calls safe for this way, in hertz.
 */
readonly safeHighPassHz?: number
/**
 * Lowest order that goes with it.
 */
readonly safeHighPassOrder?: number
/**
 * Rated power in watts.
 */
readonly ratedPowerW?: number
/**
 * Nominal impedance in ohms.
 */
readonly impedanceOhm?: number
/**
 * Sensitivity in dB SPL for 2.83 V at 1 m.
 */
readonly sensitivityDb?: number
}
/**
 * One physical output channel.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Output".
 */
export interface Output {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name as the unit shows it.
 */
readonly label: string
/**
 * Output connector of the unit profile.
 */
readonly connectorId: string
readonly feeds: Feed
/**
 * Program channels that are summed in this output.
 * 
 * @minItems 0
 * @maxItems 32
 */
readonly mix: readonly MixPart[]
readonly highPass?: Crossover
readonly lowPass?: Crossover
/**
 * Driver EQ in processing order.
 * 
 * @minItems 0
 * @maxItems 64
 */
readonly filters: readonly EqBand[]
readonly fir?: Fir
/**
 * Output gain in dB.
 */
readonly gainDb: number
/**
 * Output delay in milliseconds.
 */
readonly delayMs: number
readonly polarity: Polarity
readonly limiter?: Limiter
/**
 * True: the output is silent.
 */
readonly mute: boolean
}
/**
 * The output feeds one way of a loudspeaker in the auditorium.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "LoudspeakerFeed".
 */
export interface LoudspeakerFeed {
/**
 * What the output feeds.
 */
readonly kind: "loudspeaker"
/**
 * Loudspeaker.
 */
readonly loudspeakerId: string
/**
 * Way of it.
 */
readonly wayId: string
}
/**
 * The output feeds the hearing-impaired transmitter: personal headsets only.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "HearingImpairedFeed".
 */
export interface HearingImpairedFeed {
/**
 * What the output feeds.
 */
readonly kind: "hearing-impaired"
}
/**
 * The output feeds the narration (VIN) transmitter: personal headsets only.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "NarrationFeed".
 */
export interface NarrationFeed {
/**
 * What the output feeds.
 */
readonly kind: "narration"
}
/**
 * The output feeds the monitor loudspeaker in the booth.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "BoothMonitorFeed".
 */
export interface BoothMonitorFeed {
/**
 * What the output feeds.
 */
readonly kind: "booth-monitor"
}
/**
 * Nothing is connected.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "SpareFeed".
 */
export interface SpareFeed {
/**
 * What the output feeds.
 */
readonly kind: "spare"
}
/**
 * The share of one program channel in an output.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "MixPart".
 */
export interface MixPart {
/**
 * Program channel; the key of this list.
 */
readonly channelId: string
/**
 * Gain in dB.
 */
readonly gainDb: number
}
/**
 * One half of a crossover, or a protective high-pass or low-pass. Digital by the bilinear transform with the corner pre-warped.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Crossover".
 */
export interface Crossover {
readonly family: FilterFamily
/**
 * Order; the slope is 6 dB per octave for each. Linkwitz-Riley: 2, 4, 6, 8.
 */
readonly order: number
/**
 * Corner frequency in hertz (-3.01 dB Butterworth, -6.02 dB Linkwitz-Riley, Bessel as its normalization says).
 */
readonly frequencyHz: number
/**
 * Only and always for bessel. phase: the corner of the analogue prototype's asymptote (phase mid-point); magnitude: -3.01 dB at the corner.
 */
readonly normalization?: ("phase" | "magnitude")
}
/**
 * FIR filter of an output, at the unit's sample rate.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Fir".
 */
export interface Fir {
/**
 * Coefficients, first sample first; no unit.
 * 
 * @minItems 1
 * @maxItems 4096
 * 
 * Items: Coefficient.
 */
readonly taps: readonly number[]
/**
 * False: bypassed. Default true.
 */
readonly enabled?: boolean
}
/**
 * Limiter of an output: compared as settings, never as a filter.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Limiter".
 */
export interface Limiter {
/**
 * False: the limiter does nothing.
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
 * How the booth works with the unit.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Operation".
 */
export interface Operation {
/**
 * Fader setting at start-up, on the unit's own scale.
 */
readonly faderMark: number
/**
 * Preset at start-up.
 */
readonly startPresetId?: string
readonly emergencyMute?: EmergencyMute
/**
 * Music between shows.
 */
readonly nonSync?: {
/**
 * Source.
 */
readonly sourceId: string
/**
 * Preset.
 */
readonly presetId: string
}
/**
 * Paging microphone.
 */
readonly paging?: {
/**
 * Source.
 */
readonly sourceId: string
/**
 * Preset.
 */
readonly presetId: string
/**
 * How far the program is lowered while paging, in dB.
 */
readonly programDuckDb: number
}
/**
 * Monitor in the booth.
 */
readonly boothMonitor?: {
/**
 * Output.
 */
readonly outputId: string
/**
 * Level in dB.
 */
readonly levelDb: number
}
/**
 * Hearing-impaired feed.
 */
readonly hearingImpaired?: {
/**
 * Output.
 */
readonly outputId: string
/**
 * Level in dB.
 */
readonly levelDb: number
/**
 * What is sent when the show has no HI channel.
 */
readonly whenAbsent: ("program-mix" | "silence")
}
/**
 * Narration feed (VIN).
 */
readonly narration?: {
/**
 * Output.
 */
readonly outputId: string
/**
 * Level in dB.
 */
readonly levelDb: number
}
}
/**
 * The contact by which the fire alarm silences the auditorium. Local codes and licensed practice decide what is required.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "EmergencyMute".
 */
export interface EmergencyMute {
/**
 * True: the contact acts.
 */
readonly enabled: boolean
/**
 * Control connector of the unit profile.
 */
readonly connectorId: string
/**
 * State of the contact that mutes. closed-loop practice: an open (broken) loop mutes.
 */
readonly activeWhen: ("open" | "closed")
/**
 * How sound returns: automatic when the contact goes back, or by-hand.
 */
readonly release: ("automatic" | "by-hand")
}
/**
 * One trigger and what it does.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "AutomationItem".
 */
export interface AutomationItem {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name.
 */
readonly label: string
readonly trigger: Trigger
readonly action: Action
/**
 * Wait between trigger and action in milliseconds. Default 0.
 */
readonly waitMs?: number
}
/**
 * A contact closes or opens.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "ContactTrigger".
 */
export interface ContactTrigger {
/**
 * Kind of trigger.
 */
readonly kind: "contact"
/**
 * Control connector.
 */
readonly connectorId: string
/**
 * Which edge acts.
 */
readonly edge: ("closing" | "opening")
}
/**
 * A text arrives on a serial line.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "SerialTrigger".
 */
export interface SerialTrigger {
/**
 * Kind of trigger.
 */
readonly kind: "serial"
/**
 * Control connector.
 */
readonly connectorId: string
/**
 * Text, without the line end.
 */
readonly text: string
}
/**
 * A text arrives over the network.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "NetworkTrigger".
 */
export interface NetworkTrigger {
/**
 * Kind of trigger.
 */
readonly kind: "network"
/**
 * Network interface.
 */
readonly interfaceId: string
/**
 * Text, without the line end.
 */
readonly text: string
}
/**
 * Recall a preset.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "RecallAction".
 */
export interface RecallAction {
/**
 * Kind of action.
 */
readonly kind: "recall-preset"
/**
 * Preset.
 */
readonly presetId: string
}
/**
 * Mute the auditorium, or end the mute.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "MuteAction".
 */
export interface MuteAction {
/**
 * Kind of action.
 */
readonly kind: ("mute" | "unmute")
}
/**
 * Set the fader.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "FaderAction".
 */
export interface FaderAction {
/**
 * Kind of action.
 */
readonly kind: "set-fader"
/**
 * On the unit's own scale.
 */
readonly faderMark: number
}
/**
 * Select a source.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "SourceAction".
 */
export interface SourceAction {
/**
 * Kind of action.
 */
readonly kind: "select-source"
/**
 * Source.
 */
readonly sourceId: string
}
/**
 * Network.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Network".
 */
export interface Network {
/**
 * Host name.
 */
readonly hostname: string
/**
 * Interfaces.
 * 
 * @minItems 0
 * @maxItems 16
 */
readonly interfaces: readonly NetworkInterface[]
}
/**
 * One network interface of the unit.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "NetworkInterface".
 */
export interface NetworkInterface {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name.
 */
readonly label: string
/**
 * What it is for.
 */
readonly purpose: ("control" | "audio")
/**
 * fixed address, or automatic (DHCP).
 */
readonly mode: ("fixed" | "automatic")
/**
 * IPv4 address in dotted-decimal form.
 */
readonly address?: string
/**
 * Length of the network prefix in bits.
 */
readonly prefixLength?: number
/**
 * IPv4 address of the gateway.
 */
readonly gateway?: string
}
/**
 * The measurements that the settings rest on.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "Calibration".
 */
export interface Calibration {
/**
 * Date of the measurement, RFC 3339 full-date.
 */
readonly date: string
/**
 * Who measured: a team or a role.
 */
readonly by: string
/**
 * EQ set that was active.
 */
readonly equalizationId: string
/**
 * Positions.
 * 
 * @minItems 0
 * @maxItems 64
 */
readonly microphonePositions: readonly MicrophonePosition[]
/**
 * Results by program channel.
 * 
 * @minItems 0
 * @maxItems 32
 */
readonly channels: readonly ChannelCalibration[]
/**
 * Remarks.
 */
readonly notes?: string
}
/**
 * A position of the measuring microphone.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "MicrophonePosition".
 */
export interface MicrophonePosition {
/**
 * Stable key.
 */
readonly id: string
/**
 * Across the room from the centre line in metres; right is positive.
 */
readonly xM: number
/**
 * From the screen in metres.
 */
readonly yM: number
/**
 * Height above the floor in metres.
 */
readonly zM: number
}
/**
 * What was measured for one program channel.
 * 
 * This interface was referenced by `Configuration`'s JSON-Schema
 * via the `definition` "ChannelCalibration".
 */
export interface ChannelCalibration {
/**
 * Program channel; the key of this list.
 */
readonly channelId: string
/**
 * C-weighted slow level of pink noise at -20 dBFS RMS, in dB SPL.
 */
readonly levelDbC: number
/**
 * LFE only: mean level of its pass band above the same third-octave bands of a screen channel, in dB (SMPTE RP 200: +10 dB).
 */
readonly inBandGainDb?: number
/**
 * Measured third-octave levels in dB, 27 bands from 40 Hz to 16 kHz (nominal), relative to the mean of 500 Hz to 2 kHz.
 * 
 * @minItems 27
 * @maxItems 27
 * 
 * Items: Level in dB.
 */
readonly thirdOctavesDb?: readonly number[]
}
