export { type Acceptance, type AppliedStandard, acceptanceOf } from "./accepted.ts";
export { type Applied, type ApplyOptions, applyStandard, wordsOf as deviationWords } from "./apply.ts";
export { Census, type CensusCounts, type ListCensus, type PlaceCensus, type ValueCount } from "./census.ts";
export { isForScreen, isInClass, screenDrives } from "./class.ts";
export { type CompiledStandard, compileStandard } from "./compile.ts";
export { type Derived, type DeriveOptions, deriveStandard, type Outlier } from "./derive.ts";
export { type Deviation, deviationsFrom } from "./deviations.ts";
export {
  type DriftCode,
  type DriftedScreen,
  type DriftFinding,
  type DriftGroup,
  DriftGroups,
} from "./drift.ts";
export { type FitOptions, type Fitted, fitToUnit } from "./fit/fit-to-unit.ts";
export { settledSteps } from "./fit/settled-steps.ts";
export { followingStandard } from "./following.ts";
export { HOUSE_FIELDS, type HouseField } from "./house-fields.ts";
export { type AskingScreen, openQuestions, valueWords } from "./questions.ts";
export { deviationsSince, keyOf, type Since, type Snapshot, sinceOf } from "./since.ts";
export { median, medianAbsoluteDeviation, modifiedZScores, OUTLIER_SCORE } from "./statistics.ts";
export {
  FEWEST_TWINS,
  ODD_SHARE,
  type OddOneOut,
  type TwinCounts,
  TwinFinder,
  type TwinGroup,
} from "./twins.ts";
export { type Settle, type Settled, unitSteps } from "./unit-steps.ts";
