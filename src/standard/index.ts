export { type Applied, type ApplyOptions, applyStandard } from "./apply.ts";
export { isForScreen, screenDrives } from "./class.ts";
export { type CompiledStandard, compileStandard } from "./compile.ts";
export { type Deviation, deviationsFrom } from "./deviations.ts";
export { type AskingScreen, openQuestions, valueWords } from "./questions.ts";
export { type Settle, type Settled, unitSteps } from "./unit-steps.ts";
