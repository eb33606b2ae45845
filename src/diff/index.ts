export { type ComparedSide, type CompareOptions, compareConfigurations } from "./compare.ts";
export { DEFAULT_TOLERANCES, OTHER_MODEL_TOLERANCES } from "./tolerance.ts";
export { compareVisit, type VisitDocuments } from "./visit.ts";
