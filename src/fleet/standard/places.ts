import {
  type Configuration,
  itemKey,
  type Json,
  type JsonObject,
  type KeyedItem,
  LIST_KEYS,
} from "../../model/index.ts";

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

/** What stands at a place, and its names and positions from the root of the document. */
export interface FoundPlace {
  /** Undefined: nothing stands there. */
  readonly value: Json | undefined;
  readonly position: readonly (string | number)[];
}

/** One place by ids, as {@link placesOf} would give it; undefined where an item on the way is missing. */
export function placeAt(configuration: Configuration, path: readonly string[]): FoundPlace | undefined {
  const position: (string | number)[] = [];
  let value: Json | undefined = configuration as unknown as Json;
  let field = "";
  for (const part of path) {
    if (Object.hasOwn(LIST_KEYS, field)) {
      if (!Array.isArray(value)) return undefined;
      const list = value as readonly Json[];
      const index: number = isKeyed(field)
        ? list.findIndex((item) => (itemKey(item as KeyedItem) ?? "") === part)
        : Number(part);
      if (!(index >= 0 && index < list.length)) return undefined;
      value = list[index];
      position.push(index);
      field = `${field}[]`;
    } else {
      value = isInside(value, part) ? (value as JsonObject)[part] : undefined;
      position.push(part);
      field = field === "" ? part : `${field}.${part}`;
    }
  }
  return { value, position };
}

type Open = PlaceOfField & { readonly field: string };

function items({ path, value, field }: Open): readonly Open[] {
  if (!Array.isArray(value)) return [];
  const keyed = isKeyed(field);
  return (value as readonly Json[]).map((item, index) => ({
    path: [...path, keyed ? (itemKey(item as KeyedItem) ?? "") : String(index)],
    value: item,
    field: `${field}[]`,
  }));
}

function member({ path, value, field }: Open, name: string): Open {
  return {
    path: [...path, name],
    value: isInside(value, name) ? (value as JsonObject)[name] : undefined,
    field: field === "" ? name : `${field}.${name}`,
  };
}

function isKeyed(listField: string): boolean {
  return LIST_KEYS[listField] === "id" || LIST_KEYS[listField] === "channelId";
}

function isInside(value: Json | undefined, name: string): boolean {
  return typeof value === "object" && value !== null && Object.hasOwn(value, name);
}
