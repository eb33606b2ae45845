export { type Applied, type ApplyOptions, applyStandard, deviationWords } from "./apply.ts";
export {
  Census,
  type CensusCounts,
  type Counting,
  type ListCensus,
  type PlaceCensus,
  type Tallies,
  type Tally,
  type ValueCount,
} from "./census.ts";
export { isForScreen, isInClass, screenDrives } from "./class.ts";
export { isInside } from "./classify.ts";
export {
  type CompiledStandard,
  compileStandard,
  type HeldLeaf,
  type HeldList,
  type HoldRule,
  type LeafHold,
  type ListHold,
} from "./compile.ts";
export { type Derived, type DeriveOptions, deriveStandard, type Outlier } from "./derive.ts";
export {
  type Deviation,
  type DeviationAt,
  deviatesAt,
  deviationsFrom,
  type ExtraItem,
  type MissingItem,
  type ValueDeviation,
} from "./deviations.ts";
export { isFaderMark } from "./fader-scale.ts";
export { type FitOptions, type Fitted, fitToUnit } from "./fit/fit-to-unit.ts";
export { settledSteps } from "./fit/settled-steps.ts";
export { followingStandard } from "./following.ts";
export { HOUSE_FIELDS, type HouseField } from "./house-fields.ts";
export type { Pattern } from "./pattern.ts";
export { type AskingScreen, openQuestions, valueWords } from "./questions.ts";
export { median, medianAbsoluteDeviation, modifiedZScores, OUTLIER_SCORE } from "./statistics.ts";
export { type Settle, type Settled, unitSteps } from "./unit-steps.ts";
