export { asWired } from "./as-wired.ts";
export { db25Pins } from "./cables/db25-pins.ts";
export { unfoundedClaims } from "./check/unfounded-claims.ts";
export { type DecidedLoss, decidedLosses } from "./decided-losses.ts";
export { type AskingPlan, decisionsFor, decisionsToFillIn, type FillInOptions } from "./decisions.ts";
export { type EqualizerCurves, equalizerCurves } from "./equalizer-curves.ts";
export {
  type EqFilter,
  type EqFit,
  type EqFits,
  type EqTask,
  eqTaskKey,
  fitEqualizer,
  rememberedFits,
} from "./equalizers/eq-task.ts";
export { setDifferences } from "./equalizers/set-difference.ts";
export { type HeadroomChange, headroomChange } from "./headroom-change.ts";
export { rulingOut } from "./not-this-unit.ts";
export { type Plan, type PlanOptions, planMigration } from "./plan.ts";
export { presetUse } from "./preset-use.ts";
export { screenClass } from "./screen-class.ts";
export { type MigrationSurvey, surveyMigration } from "./survey.ts";
