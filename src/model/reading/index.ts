export { DOCUMENT_KINDS, kindWords } from "./document-kinds.ts";
export type { DocumentKind, DocumentTypes } from "./document-types.ts";
export { MAX_DEPTH, readJson } from "./json.ts";
export { type TextPosition, valuePositions } from "./json-text.ts";
export { nearestName } from "./nearest-name.ts";
export {
  type InspectedDocument,
  inspectDocument,
  type ReadDocument,
  type ReadOptions,
  type ReadWarning,
  readConfiguration,
  readDocument,
  readProfile,
} from "./read-document.ts";
export type { Shape } from "./shape.ts";
export { SHAPE_FAULTS, type ShapeFault, type ShapeProblem } from "./shape-problem.ts";
export { MAX_DOCUMENT_BYTES } from "./text.ts";
