export { applyChanges, revertChanges } from "./apply.ts";
export type {
  Change,
  ChangeAt,
  ChangeSet,
  ListOrder,
  PartAdded,
  PartRemoved,
  Rename,
  ValueChanged,
} from "./change-set.ts";
export { type ChangesOptions, changesBetween } from "./changes-between.ts";
export { jsonPatch, type PatchOperation } from "./json-patch.ts";
export { type Conflict, type ThreeWay, threeWay } from "./three-way.ts";
