export { type ComparedSide, type CompareOptions, compareConfigurations } from "./compare.ts";
export { printValue } from "./print-value.ts";
export { DEFAULT_TOLERANCES } from "./tolerance.ts";
