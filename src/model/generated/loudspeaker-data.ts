// Made by `npm run generate` from schemas/. Do not edit.

/**
 * What data sheets say of loudspeakers: ways, safe high-pass, recommended crossovers, sensitivities.
 */
export interface LoudspeakerData {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.loudspeaker-data"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * Models.
 * 
 * @minItems 1
 * @maxItems 1000
 */
readonly models: readonly LoudspeakerModel[]
}
/**
 * One loudspeaker model in one drive.
 * 
 * This interface was referenced by `LoudspeakerData`'s JSON-Schema
 * via the `definition` "LoudspeakerModel".
 */
export interface LoudspeakerModel {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name.
 */
readonly label: string
/**
 * passive: one amplifier channel; active-n: n ways with an amplifier channel each.
 */
readonly drive: ("passive" | "active-2" | "active-3" | "active-4")
/**
 * Ways from the lowest to the highest.
 * 
 * @minItems 1
 * @maxItems 4
 */
readonly ways: readonly ModelWay[]
/**
 * Remarks, and where the data comes from.
 */
readonly notes?: string
}
/**
 * One way.
 * 
 * This interface was referenced by `LoudspeakerData`'s JSON-Schema
 * via the `definition` "ModelWay".
 */
export interface ModelWay {
/**
 * Stable key inside the loudspeaker; by custom the band.
 */
readonly id: string
/**
 * Part of the spectrum that a way plays.
 */
readonly band: ("full" | "lf" | "mf" | "hf" | "vhf" | "sub")
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
readonly sensitivityDb: number
/**
 * Delay in milliseconds that brings the way's driver in line with the deepest one. Default 0.
 */
readonly alignMs?: number
/**
 * Lowest way only: recommended high-passes below its range, the best first.
 * 
 * @minItems 1
 * @maxItems 8
 */
readonly highPass?: readonly RecommendedFilter[]
/**
 * Highest way only: recommended low-passes above its range (subwoofers), the best first.
 * 
 * @minItems 1
 * @maxItems 8
 */
readonly lowPass?: readonly RecommendedFilter[]
/**
 * Every way but the highest: recommended crossovers to the next way, both halves alike, the best first.
 * 
 * @minItems 1
 * @maxItems 8
 */
readonly splitAbove?: readonly RecommendedFilter[]
}
/**
 * A recommended filter; the same as a crossover half of a configuration.
 * 
 * This interface was referenced by `LoudspeakerData`'s JSON-Schema
 * via the `definition` "RecommendedFilter".
 */
export interface RecommendedFilter {
/**
 * Family of crossover filters.
 */
readonly family: ("butterworth" | "bessel" | "linkwitz-riley")
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
