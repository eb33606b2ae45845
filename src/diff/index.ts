export { type ComparedSide, type CompareOptions, compareConfigurations } from "./compare.ts";
export { DEFAULT_TOLERANCES } from "./tolerance.ts";
