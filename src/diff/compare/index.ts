export { type ComparedSide, type CompareOptions, compareConfigurations } from "./compare.ts";
export { COMPARISON_TOLERANCES, OTHER_MODEL_COMPARISON_TOLERANCES } from "./tolerance.ts";
export { compareVisit, type VisitDocuments } from "./visit.ts";
