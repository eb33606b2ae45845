/** A value as JSON has it. */
export type Json = null | boolean | number | string | readonly Json[] | JsonObject;

/** A JSON object. */
export interface JsonObject {
  readonly [name: string]: Json;
}

export function isObject(value: Json | undefined): value is JsonObject {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function isList(value: Json | undefined): value is readonly Json[] {
  return Array.isArray(value);
}

/** A document as plain JSON: the types of documents have no members by name. Nothing is copied. */
export function asJson(document: object): JsonObject {
  return document as JsonObject;
}
