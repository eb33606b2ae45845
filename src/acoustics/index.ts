export {
  type AcousticOptions,
  type AcousticResponses,
  acousticResponses,
  equalizationResponse,
} from "./acoustic-responses.ts";
export {
  type FractionalOctaveBand,
  type FrequencyBand,
  nominalThirdOctaveHz,
  OCTAVE_RATIO,
  REFERENCE_FREQUENCY_HZ,
  thirdOctaveBand,
  thirdOctaveBands,
  thirdOctaveCenterHz,
} from "./band-frequencies.ts";
export { type BandLevel, thirdOctaveLevels } from "./band-levels.ts";
export { cascadeGroupDelayMs, cascadeResponse } from "./cascade.ts";
export {
  type ComparableResponse,
  type ComparisonOptions,
  comparablePath,
  compareResponses,
  type PhaseDeviation,
  type ResponseComparison,
} from "./compare.ts";
export type {
  AcousticChannel,
  AcousticConfiguration,
  AcousticEqualization,
  AcousticLoudspeaker,
  AcousticOutput,
  AcousticPolarity,
  AcousticPreset,
  AcousticSource,
} from "./configuration.ts";
export {
  CROSSOVER_FAMILY_NAMES,
  type CrossoverFamilyName,
  type CrossoverHalf,
  type CrossoverSide,
  crossoverOrders,
  crossoverSections,
} from "./crossovers/crossover-families.ts";
export type { BesselNormalization } from "./crossovers/crossover-family.ts";
export { estimateDelayMs } from "./delay-estimate.ts";
export {
  type FilterResponse,
  filterResponse,
  flatResponse,
  inSeries,
  levelOf,
  magnitudeDb,
  SILENCE_DB,
} from "./filter-response.ts";
export type { AllPassSettings } from "./filters/all-pass.ts";
export type { BandPassSettings } from "./filters/band-pass.ts";
export type { FilterSettings } from "./filters/filter-kind.ts";
export { FILTER_KIND_NAMES, filterSections, type ParametricFilter } from "./filters/filter-kinds.ts";
export type { HighPassSettings } from "./filters/high-pass.ts";
export type { HighShelfSettings } from "./filters/high-shelf.ts";
export type { LowPassSettings } from "./filters/low-pass.ts";
export type { LowShelfSettings } from "./filters/low-shelf.ts";
export type { NotchSettings } from "./filters/notch.ts";
export type { PeakingSettings } from "./filters/peaking.ts";
export type { ShelfSettings } from "./filters/shelf.ts";
export { type FirFilter, firResponse } from "./fir.ts";
export {
  type FrequencyAxis,
  type FrequencyGridOptions,
  frequencyAxis,
  frequencyGrid,
} from "./frequency-axis.ts";
export {
  defaultGraphicQ,
  GRAPHIC_LAYOUTS,
  type GraphicEqualizer,
  type GraphicLayoutName,
  type GraphicOptions,
  graphicBandIndices,
  graphicCentersHz,
  graphicSections,
} from "./graphic.ts";
export { type LevelAt, type OutputHeadroom, outputHeadrooms } from "./headroom.ts";
export { COMPUTABLE, type ComputableNumber, type NumberRange, type SettingPlace } from "./limits.ts";
export { isInLipSync, LIP_SYNC_WINDOWS, type LipSyncWindow } from "./lip-sync.ts";
export {
  type LoudspeakerSum,
  type LoudspeakerSumOptions,
  loudspeakerSums,
  type WayResponse,
} from "./loudspeaker-sum.ts";
export type { OutputResponse } from "./output-response.ts";
export { delayedResponse, pathFilterPhaseRad, pathMagnitudeDb, pathResponse } from "./path-responses.ts";
export type { Path } from "./paths.ts";
export {
  type PinkNoiseOptions,
  pinkNoiseBandLevelDb,
  pinkNoiseLevelChangeDb,
  pinkNoiseWeights,
} from "./pink-noise.ts";
export {
  type DigitalCoefficients,
  digitalCoefficients,
  type Prototype,
  prewarpedSection,
  type Section,
} from "./section.ts";
export type { UnitAcoustics } from "./unit-acoustics.ts";
export type { WayCrossing, WayPair } from "./way-pair.ts";
export { type Weighting, weightingDb, weightingPower } from "./weighting.ts";
export {
  CALIBRATION_BANDS,
  X_CURVE_TOLERANCE_DB,
  type XCurveDeviation,
  type XCurveSlopes,
  xCurveDb,
  xCurveDeviations,
  xCurveSlopes,
} from "./x-curve.ts";
