import type { Json, JsonObject } from "../changes/index.ts";
import { type Configuration, itemKey, type KeyedItem, LIST_KEYS } from "../model/index.ts";

/** A place of a configuration by ids, with what stands there. */
export interface PlaceOfField {
  readonly path: readonly string[];
  readonly value: Json | undefined;
}

/**
 * Every place of a field in a configuration, in the order of the document: "presets[].levelDb" gives one for each preset.
 * Members that are optional and missing are given as undefined; inside lists only what is there.
 */
export function placesOf(configuration: Configuration, field: string): readonly PlaceOfField[] {
  let open: readonly (PlaceOfField & { readonly field: string })[] = [
    { path: [], value: configuration as unknown as Json, field: "" },
  ];
  for (const step of field.replaceAll("[]", ".[]").split(".")) {
    open = open.flatMap((at) => (step === "[]" ? items(at) : [member(at, step)]));
  }
  return open;
}

type Open = PlaceOfField & { readonly field: string };

function items({ path, value, field }: Open): readonly Open[] {
  if (!Array.isArray(value)) return [];
  const keyed = LIST_KEYS[field] === "id" || LIST_KEYS[field] === "channelId";
  return (value as readonly Json[]).map((item, index) => ({
    path: [...path, keyed ? (itemKey(item as KeyedItem) ?? "") : String(index)],
    value: item,
    field: `${field}[]`,
  }));
}

function member({ path, value, field }: Open, name: string): Open {
  const inside = typeof value === "object" && value !== null && Object.hasOwn(value, name);
  return {
    path: [...path, name],
    value: inside ? (value as JsonObject)[name] : undefined,
    field: field === "" ? name : `${field}.${name}`,
  };
}
