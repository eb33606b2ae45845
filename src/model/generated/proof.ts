// Made by `npm run generate` from schemas/. Do not edit.

/**
 * equal: nothing differs. within-tolerance: every difference lies within the tolerances. differs: something is audible, missing, new, or a setting is not what it was. What somebody decided, and is as it was decided, does not count.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "OverallVerdict".
 */
export type OverallVerdict = ("equal" | "within-tolerance" | "differs")
/**
 * equal: no difference beyond rounding of the arithmetic. within-tolerance, audible: beyond it. missing: the sound no longer arrives. changed-by-decision: another sound, as it was decided. left-out: missing by decision. new: sound arrives where none did.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "PathVerdict".
 */
export type PathVerdict = ("equal" | "within-tolerance" | "audible" | "missing" | "changed-by-decision" | "left-out" | "new")
/**
 * What a verdict rests on. response, level, phase, delay, polarity, low-edge, high-edge: that deviation. muted, unmuted: silent after, silent before. not-as-decided: the deviation is against what was decided, not against before. no-preset, no-source-channel, no-crossing, no-channel, no-feed, no-mix: what the other configuration lacks.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "PathReason".
 */
export type PathReason = ("response" | "level" | "phase" | "delay" | "polarity" | "low-edge" | "high-edge" | "muted" | "unmuted" | "not-as-decided" | "no-preset" | "no-source-channel" | "no-crossing" | "no-channel" | "no-feed" | "no-mix")

/**
 * What becomes of every path when one configuration takes the place of another, computed from the two documents alone.
 */
export interface Proof {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.proof"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
readonly verdict: OverallVerdict
readonly before: ProvedUnit
readonly after: ProvedUnit
readonly tolerances: ProofTolerances
readonly method: ProofMethod
/**
 * Delay that all paths have in common: after minus before, in milliseconds, unit latency included. It moves the sound against the picture and nothing else.
 */
readonly commonDelayMs: number
readonly counts: PathCounts
readonly parts: ProofParts
/**
 * Presets of either configuration.
 */
readonly presets: readonly PresetProof[]
/**
 * What is fed: ways of loudspeakers and the feeds for hearing-impaired, narration and booth monitor.
 */
readonly feeds: readonly FeedProof[]
/**
 * Source channels that a path starts from.
 */
readonly sourceChannels: readonly SourceChannelName[]
/**
 * Paths with the same deviation and verdict, the most serious group first.
 */
readonly groups: readonly PathGroup[]
/**
 * Sum of the ways of each loudspeaker that has more than one.
 */
readonly sums: readonly SumProof[]
/**
 * Settings that are no filters, or that protect, and that differ.
 */
readonly settings: readonly SettingProof[]
/**
 * How many settings were compared, equal ones included.
 */
readonly settingsCompared: number
/**
 * Every connector that carries something in either configuration, inputs first.
 */
readonly connectors: readonly ConnectorProof[]
}
/**
 * The unit that a configuration was computed for.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "ProvedUnit".
 */
export interface ProvedUnit {
/**
 * Unit profile.
 */
readonly profileId: string
/**
 * Serial number.
 */
readonly serial: string
/**
 * Firmware version.
 */
readonly firmware: string
/**
 * Sample rate in hertz.
 */
readonly sampleRateHz: number
/**
 * Time from input to output with all delays at 0, in milliseconds.
 */
readonly latencyMs: number
}
/**
 * Largest deviation that is still within tolerance.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "ProofTolerances".
 */
export interface ProofTolerances {
/**
 * Weighted magnitude deviation at any frequency, in dB.
 */
readonly responseDb: number
/**
 * Weighted rms magnitude deviation, in dB.
 */
readonly responseRmsDb: number
/**
 * Level of a path, in dB.
 */
readonly levelDb: number
/**
 * Weighted magnitude deviation between 20 Hz and the lowest weighted frequency, in dB.
 */
readonly lowEdgeDb: number
/**
 * Weighted phase deviation of the filters, delays and polarity taken off, in degrees.
 */
readonly phaseDeg: number
/**
 * Level at the seats of loudspeakers that play together by decision, in dB.
 */
readonly seatsDb: number
/**
 * Delay of a path against the other paths of its preset, in milliseconds.
 */
readonly delayMs: number
/**
 * Delay of a whole preset against the others, in milliseconds.
 */
readonly presetDelayMs: number
/**
 * Change of the sum of a loudspeaker's ways at any frequency, in dB.
 */
readonly sumDb: number
/**
 * Change of the phase between two ways at their crossover frequency, in degrees.
 */
readonly crossoverPhaseDeg: number
/**
 * Corner frequency of a high-pass or low-pass, in octaves.
 */
readonly cornerOctaves: number
/**
 * Threshold of a limiter, in dB.
 */
readonly limiterDb: number
/**
 * Attack and release of a limiter: larger divided by smaller, minus 1.
 */
readonly limiterTimeRatio: number
/**
 * Common delay, in milliseconds.
 */
readonly commonDelayMs: number
/**
 * Level of a stored fader setting, in dB.
 */
readonly faderDb: number
}
/**
 * How the responses were compared.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "ProofMethod".
 */
export interface ProofMethod {
/**
 * Lowest weighted frequency in hertz.
 */
readonly fromHz: number
/**
 * Highest weighted frequency in hertz.
 */
readonly toHz: number
/**
 * Lowest computed frequency in hertz.
 */
readonly lowestHz: number
/**
 * Highest computed frequency in hertz.
 */
readonly highestHz: number
/**
 * How many frequencies.
 */
readonly frequencies: number
/**
 * How deviations are weighted, in words.
 */
readonly weighting: string
}
/**
 * How many paths have each verdict.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "PathCounts".
 */
export interface PathCounts {
/**
 * All paths: those of the old configuration and the new ones.
 */
readonly paths: number
/**
 * Equal.
 */
readonly equal: number
/**
 * Within tolerance.
 */
readonly withinTolerance: number
/**
 * Audible.
 */
readonly audible: number
/**
 * Missing.
 */
readonly missing: number
/**
 * Changed by decision, as it was decided.
 */
readonly changedByDecision: number
/**
 * Left out by decision.
 */
readonly leftOut: number
/**
 * New.
 */
readonly new: number
}
/**
 * What was compared, in parts that add up: the same, changed by decision, left out by decision, and what differs though nobody decided so.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "ProofParts".
 */
export interface ProofParts {
readonly same: ProofPart
readonly changedByDecision: ProofPart
readonly leftOut: ProofPart
readonly undecided: ProofPart
}
/**
 * How much of what was compared is in a part, and the largest differences there; the same: up to the tolerances.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "ProofPart".
 */
export interface ProofPart {
/**
 * Paths.
 */
readonly paths: number
/**
 * Sums of the ways of a loudspeaker.
 */
readonly sums: number
/**
 * Settings.
 */
readonly settings: number
/**
 * Largest deviation of a response or of a sum, either way, in dB.
 */
readonly largestDb: number
/**
 * Largest deviation of the phase of a path, either way, in degrees.
 */
readonly largestPhaseDeg: number
/**
 * Largest deviation of the delay of a path from the other paths of its preset, either way, in milliseconds.
 */
readonly largestDelayMs: number
}
/**
 * A preset and the paths that it opens.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "PresetProof".
 */
export interface PresetProof {
/**
 * Preset.
 */
readonly presetId: string
/**
 * Name as the unit shows it.
 */
readonly label: string
/**
 * The most serious of its paths and its delay.
 */
readonly verdict: ("equal" | "within-tolerance" | "audible" | "missing" | "changed-by-decision" | "left-out" | "new")
readonly counts: PathCounts
/**
 * Verdict on that delay alone.
 */
readonly delayVerdict: ("equal" | "within-tolerance" | "audible")
/**
 * Delay of the whole preset beyond the common delay, in milliseconds: after minus before.
 */
readonly delayMs: number
}
/**
 * Something that is fed, and the paths that end there.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "FeedProof".
 */
export interface FeedProof {
/**
 * Key inside this document: loudspeaker and way joined by a stroke, or the kind of feed; a second output of the same is marked #2.
 */
readonly id: string
/**
 * Name in the screen's own words.
 */
readonly label: string
/**
 * What is fed.
 */
readonly kind: ("loudspeaker" | "hearing-impaired" | "narration" | "booth-monitor")
/**
 * Loudspeaker.
 */
readonly loudspeakerId?: string
/**
 * Way of it.
 */
readonly wayId?: string
readonly verdict: PathVerdict
readonly counts: PathCounts
}
/**
 * A source channel by name.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "SourceChannelName".
 */
export interface SourceChannelName {
/**
 * Key: the id in the old configuration, or in the new one where only that has it.
 */
readonly id: string
/**
 * Name of its source.
 */
readonly sourceLabel: string
/**
 * Position in the source's programme, from 1.
 */
readonly position: number
}
/**
 * Paths that became the same in the same way.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "PathGroup".
 */
export interface PathGroup {
/**
 * Key inside this document.
 */
readonly id: string
readonly verdict: PathVerdict
/**
 * What the verdict rests on; empty for equal paths.
 */
readonly reasons: readonly PathReason[]
readonly deviation?: PathDeviation
/**
 * How many paths.
 */
readonly pathCount: number
/**
 * The paths, those of several presets joined.
 */
readonly paths: readonly PathSet[]
}
/**
 * After against before.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "PathDeviation".
 */
export interface PathDeviation {
/**
 * Largest weighted magnitude deviation in dB, level included; signed.
 */
readonly responseDb: number
/**
 * Where it lies, in hertz.
 */
readonly responseAtHz: number
/**
 * Weighted rms magnitude deviation in dB, level included.
 */
readonly responseRmsDb: number
/**
 * Weighted mean magnitude deviation in dB: louder is positive.
 */
readonly levelDb: number
/**
 * Largest weighted magnitude deviation below the weighted range, in dB; signed.
 */
readonly lowEdgeDb: number
/**
 * Largest weighted magnitude deviation above the weighted range, in dB; signed. Reported, not judged.
 */
readonly highEdgeDb: number
/**
 * Largest weighted phase deviation of the filters in degrees; signed, delays and polarity taken off.
 */
readonly phaseDeg: number
/**
 * Where it lies, in hertz.
 */
readonly phaseAtHz: number
/**
 * Delay deviation against the other paths of the preset in milliseconds: later is positive.
 */
readonly delayMs: number
/**
 * Where loudspeakers play together by decision: change of level in dB at the seats of what the preset plays of the source channel from all of them. This is what a level is judged by there.
 */
readonly seatsDb?: number
/**
 * Whether the sign of the path is the same.
 */
readonly polarity: ("same" | "opposite")
}
/**
 * Paths from one source channel through one program channel to one feed, in one or more presets.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "PathSet".
 */
export interface PathSet {
/**
 * Presets.
 * 
 * Items: Preset.
 */
readonly presetIds: readonly string[]
/**
 * Source channel.
 */
readonly sourceChannelId: string
/**
 * Label of the program channel.
 */
readonly channel: string
/**
 * Label of the program channel that the sound goes through in the new configuration, if another.
 */
readonly channelAfter?: string
/**
 * Feed.
 */
readonly feedId: string
}
/**
 * The ways of one loudspeaker together with ideal drivers. The old gains, delays and driver EQ count as having made the drivers equal in level, flat and in time; only what changed acts.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "SumProof".
 */
export interface SumProof {
/**
 * Loudspeaker.
 */
readonly loudspeakerId: string
/**
 * Name in the screen's own words.
 */
readonly label: string
/**
 * Labels of the program channels that it holds for.
 * 
 * Items: Label.
 */
readonly channels: readonly string[]
/**
 * As for a path; missing: a way no longer plays.
 */
readonly verdict: ("equal" | "within-tolerance" | "audible" | "missing" | "changed-by-decision" | "left-out")
/**
 * Largest weighted change of the sum's magnitude against its mean change from 40 Hz to 16 kHz, in dB; signed.
 */
readonly changeDb?: number
/**
 * Where it lies, in hertz.
 */
readonly changeAtHz?: number
/**
 * From the lowest way up.
 */
readonly crossovers: readonly CrossoverProof[]
}
/**
 * Two neighbouring ways where they play equally loud.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "CrossoverProof".
 */
export interface CrossoverProof {
/**
 * Lower way.
 */
readonly lowerWayId: string
/**
 * Upper way.
 */
readonly upperWayId: string
/**
 * Crossover frequency in hertz, before.
 */
readonly frequencyBeforeHz: number
/**
 * The same after; absent: the ways no longer cross.
 */
readonly frequencyAfterHz?: number
/**
 * Highest minus lowest magnitude of the sum within an octave on both sides, in dB, before.
 */
readonly rippleBeforeDb: number
/**
 * The same after.
 */
readonly rippleAfterDb?: number
/**
 * Phase of the lower way minus phase of the upper way at the crossover frequency, in degrees, before.
 */
readonly phaseBeforeDeg: number
/**
 * The same after, changes of delay, filters and polarity included.
 */
readonly phaseAfterDeg?: number
}
/**
 * A setting of which something differs.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "SettingProof".
 */
export interface SettingProof {
/**
 * What is set.
 */
readonly setting: ("high-pass" | "low-pass" | "fir" | "limiter" | "mute" | "when-absent" | "emergency-mute" | "paging" | "fader" | "slot" | "format" | "start-preset" | "non-sync" | "automation")
/**
 * Feed that it belongs to; absent: the whole unit.
 */
readonly feedId?: string
/**
 * Preset that it belongs to.
 */
readonly presetId?: string
/**
 * Label of the program channel that it belongs to.
 */
readonly channel?: string
/**
 * Automation item that it belongs to.
 */
readonly automationId?: string
/**
 * Name of the automation item.
 */
readonly label?: string
/**
 * within-tolerance: differs less than the tolerance. weaker, lost: protects less, or not at all any more. missing: is there no more, and protects nothing. changed, new: otherwise. changed-by-decision, left-out: as it was decided; what protects less counts so only where the decision accepts that in words.
 */
readonly verdict: ("within-tolerance" | "changed" | "weaker" | "lost" | "missing" | "new" | "changed-by-decision" | "left-out")
/**
 * What differs.
 */
readonly differences: readonly SettingDifference[]
}
/**
 * One value before and after.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "SettingDifference".
 */
export interface SettingDifference {
/**
 * Name of the value, with its unit.
 */
readonly name: string
/**
 * Before; null: there was none.
 */
readonly before: (number | string | boolean | null)
/**
 * After; null: there is none.
 */
readonly after: (number | string | boolean | null)
/**
 * What was decided, where it is another value than after; null: none.
 */
readonly decided?: (number | string | boolean | null)
}
/**
 * A connector and what its cable belongs to, by the names of the screen: of an input what arrives, of an output what it feeds, of a control terminal what it starts.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "ConnectorProof".
 */
export interface ConnectorProof {
/**
 * Direction seen from the unit.
 */
readonly direction: ("input" | "output" | "control")
/**
 * Connector of the unit profile.
 */
readonly connectorId: string
/**
 * equal: the same as before. as-cabled: something else, and the cables that are said to move account for it, or what it carried is left out. changed: something else than what its cable brings. unknown: another model of unit, and nothing says where the cables go.
 */
readonly verdict: ("equal" | "as-cabled" | "changed" | "unknown")
/**
 * What it carried; empty: nothing, or the old unit has no such connector.
 */
readonly before: readonly ConnectorContent[]
/**
 * What it carries; empty: nothing, or the new unit has no such connector.
 */
readonly after: readonly ConnectorContent[]
}
/**
 * Something at the far end of a cable.
 * 
 * This interface was referenced by `Proof`'s JSON-Schema
 * via the `definition` "ConnectorContent".
 */
export interface ConnectorContent {
/**
 * Key inside this document, the same before and after.
 */
readonly id: string
/**
 * Name in the screen's own words.
 */
readonly label: string
}
