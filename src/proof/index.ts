export type { DecidedSetting } from "./decided-setting.ts";
export type { GivenUp } from "./given-up.ts";
export { type ProofUnit, type ProveOptions, prove } from "./prove.ts";
export { DEFAULT_TOLERANCES } from "./tolerances.ts";
