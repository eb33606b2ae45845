export { removeAt, setAt, setAtPosition } from "./edit.ts";
export { itemKey, itemName, type KeyedItem } from "./item-key.ts";
export { asJson, isList, isObject, type Json, type JsonObject } from "./json.ts";
export { type Leaf, type LeafValue, leaves, leavesOf, type PlaceOfField, placesOf } from "./leaves.ts";
export {
  type Address,
  addressOf,
  type DocumentPath,
  fieldOf,
  type ItemPath,
  isKeyIn,
  itemPath,
  keysOf,
} from "./place.ts";
export { type FoundPlace, keyPath, placeAt, pointerTo, valueAt, valueAtPosition } from "./resolve.ts";
export {
  CONFIGURATION_SHAPE,
  type DocumentShape,
  isKeyed,
  keyMember,
  shapeAt,
  sortOfField,
} from "./shape.ts";
