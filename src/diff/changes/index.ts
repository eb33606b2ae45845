export { applyChanges, revertChanges } from "./apply.ts";
export type {
  Change,
  ChangeSet,
  ItemPath,
  ListOrder,
  PartAdded,
  PartRemoved,
  Rename,
  ValueChanged,
} from "./change-set.ts";
export { type ChangesOptions, changesBetween } from "./changes-between.ts";
export type { Json, JsonObject } from "./json.ts";
export { jsonPatch, type PatchOperation } from "./json-patch.ts";
export { pointerTo, valueAt } from "./place.ts";
export { type Conflict, type ThreeWay, threeWay } from "./three-way.ts";
