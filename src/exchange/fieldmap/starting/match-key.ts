import type { MapRule } from "../../../model/index.ts";
import type { FieldMatch, PlacesOf } from "./match-fields.ts";
import { type ListShape, type ScalarShape, scalarsIn } from "./shape.ts";
import { likeness, meaningOf, meaningOfField } from "./vocabulary.ts";

/** What tells the items of a list apart. */
export interface KeyGuess {
  /** The place of the key in the item; absent where it follows from the item's own place or from other fields. */
  readonly at?: string;
  readonly shape?: ScalarShape;
  /** The rule of the key, where it is no plain value. */
  readonly rule?: MapRule;
  readonly words: string;
  /** The keys themselves, as the export has them. */
  readonly values: ReadonlySet<string>;
}

interface Keyed {
  readonly keyField: string;
  readonly path: string;
  readonly shape: ListShape;
  readonly places: PlacesOf;
  readonly fields: readonly FieldMatch[];
  /** Places that say to which items around them rows belong: keys need only tell apart those of one. */
  readonly where: readonly { readonly at: string }[];
}

/** The key of a list's items: a place with other values in all of them, else their names, else what they are made of. */
export function keyOf(keyed: Keyed): KeyGuess | undefined {
  const { keyField, shape, fields } = keyed;
  const groups = groupsOf(keyed);
  const own = fields.find(({ field }) => field === keyField);
  const isUnique = own !== undefined && tellsApart(own.shape, groups);
  if (isUnique && (shape.by === "place" || own.score > 0.9)) return byPlace(own.at, own.shape);
  // Numbers of shows and of channels are their slots: a name that they bear themselves is the better key.
  if (
    shape.by === "name" &&
    shape.names.every((name) => /^\d+$/.test(name)) &&
    /^(?:presets|channels)$/.test(keyed.path)
  ) {
    const better = isUnique ? ([own.at, own.shape] as const) : namedKey(keyed, groups);
    if (better?.[1].leaves.every(({ raw }) => /^[A-Za-z]/.test(raw))) return byPlace(...better);
  }
  if (shape.by === "name") {
    const rule: MapRule = { kind: "value", field: keyField, segment: 0 };
    return { rule, words: "their names", values: new Set(shape.names) };
  }
  const named = namedKey(keyed, groups);
  if (named !== undefined) return byPlace(...named);
  const numbered = keyField === "channelId" ? undefined : numberedKey(keyed, groups);
  if (numbered !== undefined) return numbered;
  return keyField === "channelId" ? undefined : madeKey(keyed);
}

function byPlace(at: string, shape: ScalarShape): KeyGuess {
  return {
    ...{ at, shape, words: `${at.slice(1)}` },
    values: new Set(shape.leaves.map(({ raw }) => raw)),
  };
}

/** By item: which items are told apart together, those of one list, or the rows of one item around them. */
function groupsOf({ shape, where }: Keyed): ReadonlyMap<string, string> {
  const groups = new Map(shape.items.map((item) => [item, item.slice(0, item.lastIndexOf("/"))]));
  for (const { at } of where) {
    const place = scalarsIn(shape.item).find(([own]) => own === at);
    for (const { pointer, raw } of place?.[1].leaves ?? []) {
      const item = pointer.slice(0, pointer.length - at.length);
      groups.set(item, `${groups.get(item)} ${raw}`);
    }
  }
  return groups;
}

/** Whether a place has a value in every item, none of them twice in one group. */
function tellsApart(place: ScalarShape, groups: ReadonlyMap<string, string>): boolean {
  if (place.leaves.length !== groups.size) return false;
  const found = new Set<string>();
  for (const { pointer, raw } of place.leaves) {
    let item = pointer;
    while (item !== "" && !groups.has(item)) item = item.slice(0, item.lastIndexOf("/"));
    const id = `${groups.get(item)}\n${raw}`;
    if (raw === "" || /\s/.test(raw) || found.has(id)) return false;
    found.add(id);
  }
  return true;
}

/** A place named after the list, or the first that tells the items apart. */
function namedKey(
  { path, places, fields }: Keyed,
  groups: ReadonlyMap<string, string>,
): readonly [string, ScalarShape] | undefined {
  const apart = places.filter(([, place]) => tellsApart(place, groups));
  const own = meaningOfField(path.slice(path.lastIndexOf(".") + 1));
  const named = apart.find(([at]) => likeness(own, meaningOf(at.slice(at.lastIndexOf("/")))) > 0.4);
  // Kinds of filters may differ in every short list, and tell nothing apart in the next.
  const isKind = (at: string) => fields.some((field) => field.at === at && field.path.endsWith(".kind"));
  return (
    named ??
    apart
      .filter(([at]) => !isKind(at))
      .find(([, { leaves }]) => leaves.every(({ raw }) => /^[A-Za-z][\w.-]*$/.test(raw)))
  );
}

/** A place that counts the items: "No" with 1, 2, 3. */
function numberedKey(
  { keyField, path, places }: Keyed,
  groups: ReadonlyMap<string, string>,
): KeyGuess | undefined {
  const found = places.find(
    ([at, place]) =>
      tellsApart(place, groups) &&
      place.leaves.filter(({ raw }) => /^\d{1,4}$/.test(raw)).length >= place.leaves.length - 1 &&
      /^(?:no|nr|n|num|number|id|idx|index|key|pos|position|0)?$/i.test(
        at.slice(at.lastIndexOf("/") + 1).replace(/^[@#]+/, ""),
      ),
  );
  if (found === undefined) return undefined;
  const [at, shape] = found;
  const last = path.slice(path.lastIndexOf(".") + 1);
  const as = { kind: "template", text: `${last === "outputs" ? "out" : last.replace(/s$/, "")}-{}` } as const;
  const rule: MapRule = { kind: "value", field: keyField, at, as };
  return {
    at,
    shape,
    rule,
    words: `${at.slice(1)}, which counts them`,
    values: new Set(shape.leaves.map(({ raw }) => raw)),
  };
}

function madeKey({ keyField, path, shape, fields }: Keyed): KeyGuess {
  const has = (name: string) => fields.some(({ field }) => field === name);
  if (has("sourceChannelId") && has("channelId")) {
    const rule: MapRule = { kind: "join", field: keyField, text: "{sourceChannelId}-{channelId}" };
    return { rule, words: "made of what it joins", values: new Set() };
  }
  const name = path.slice(path.lastIndexOf(".") + 1).replace(/s$/, "");
  const as = { kind: "template", text: `${name}-{}`, offset: 1 } as const;
  const rule: MapRule = { kind: "value", field: keyField, segment: 0, as };
  return {
    rule,
    words: "their place, since nothing else tells them apart",
    values: new Set(shape.names),
  };
}
