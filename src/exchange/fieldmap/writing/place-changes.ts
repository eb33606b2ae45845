import { pointerParts } from "../../../base/findings/index.ts";
import type { ItemPath } from "../../../model/index.ts";
import { fieldType } from "../field-type.ts";
import type { Binding, Interpretation, MissingPlace } from "../interpretation.ts";
import type { NewPlace } from "../structural-change.ts";
import { type ExportTree, type LeafStyle, valueAt } from "../tree.ts";
import { memberAt, pathId } from "./keyed-document.ts";
import type { ExportState, PlannedChange } from "./planned-change.ts";
import type { Writer } from "./writer.ts";

/** Places that the export lacks and for which the configuration has a value, one change for all of an item. */
export function placesToFill({ interpretation }: ExportState, writer: Writer): readonly PlannedChange[] {
  if (interpretation.missing.length === 0) return [];
  const styles = new Map<unknown, LeafStyle>();
  for (const { rule, leaf } of interpretation.bindings) if (!styles.has(rule)) styles.set(rule, leaf.style);
  return byItem(interpretation.missing).flatMap(([item, missing]) => {
    const places = missing.flatMap((place) => {
      const wanted = writer.newRaw(place);
      return wanted === undefined ? [] : [{ place, change: newPlace(place, wanted, styles) }];
    });
    const own = places.filter(({ change }) => !change.filler).map(({ place }) => place);
    if (own.length === 0) return [];
    const ids = own.map(placeId);
    return [
      {
        id: `fill ${pathId(item)} ${ids.join(" ")}`,
        kind: "fill" as const,
        item,
        fields: own.map(({ names }) => names),
        changes: places.map(({ change }) => change),
        holds: (next: Interpretation) => {
          const bound = new Set(next.bindings.map(placeId));
          return ids.every((id) => bound.has(id));
        },
      },
    ];
  });
}

/** A new value is written as other values of its rule are, else as its field wants. */
function newPlace(
  { rule, at, field }: MissingPlace,
  { raw, filler }: { readonly raw: string; readonly filler: boolean },
  styles: ReadonlyMap<unknown, LeafStyle>,
): NewPlace {
  const style = styles.get(rule);
  const isWord = rule.as !== undefined && ["text", "choice", "template"].includes(rule.as.kind);
  const bare = style === undefined ? !isWord && fieldType(field) !== "text" : style === "json-literal";
  return { kind: "set", item: at, names: pointerParts(rule.at!), raw, bare, filler };
}

/** Places that the export has and for which the configuration has nothing, one change for all of an item. */
export function placesToEmpty(
  { interpretation, tree }: ExportState,
  writer: Writer,
): readonly PlannedChange[] {
  const bindings = interpretation.bindings.filter((binding) => isToGo(binding, writer));
  if (bindings.length === 0) return [];
  const idle = interpretation.bindings.filter((binding) => saysNothing(binding, writer));
  const besides = idle.map(({ leaf }) => leaf.pointer);
  const gone = new Set([...bindings.map(({ leaf }) => leaf.pointer), ...besides]);
  const itemAt = new Map(
    interpretation.lists.flatMap(({ items }) => items.map(({ path, pointer }) => [pathId(path), pointer])),
  );
  return byItem(bindings).map(([item, own]) => {
    const ids = own.map(placeId);
    const within = itemAt.get(pathId(item)) ?? "";
    const pointers = new Set(own.map(({ leaf }) => widest(leaf.pointer, { within, gone, tree })));
    return {
      id: `empty ${pathId(item)} ${ids.join(" ")}`,
      kind: "empty" as const,
      item,
      fields: own.map((binding) => ("names" in binding ? binding.names : [])),
      changes: [...pointers].map((pointer) => ({ kind: "remove" as const, pointer, besides })),
      holds: (next: Interpretation) => {
        const bound = new Set(next.bindings.map(placeId));
        return ids.every((id) => !bound.has(id));
      },
    };
  });
}

function isToGo(binding: Binding, writer: Writer): boolean {
  if (binding.kind !== "value" && binding.kind !== "numbers") return false;
  const { rule, item, names, leaf } = binding;
  const around = writer.document.at(item);
  if (around === undefined || !writer.applies(binding)) return false;
  if (rule.optional !== true || memberAt(around, names) !== undefined) return false;
  if (rule.kind === "numbers") return leaf.raw.trim() !== "";
  return rule.absent === undefined && rule.default === undefined && !rule.readOnly;
}

/** Whether a place only shows that there is nothing, which the configuration says as well. */
function saysNothing(binding: Binding, writer: Writer): boolean {
  if (binding.kind !== "value" || binding.rule.optional !== true) return false;
  const { rule, item, names } = binding;
  if (rule.absent === undefined || rule.readOnly === true) return false;
  const around = writer.document.at(item);
  return around !== undefined && memberAt(around, names) === undefined;
}

/** The largest part around a value of which nothing stays; never a whole item. */
function widest(
  pointer: string,
  {
    within,
    gone,
    tree: { leaves, root },
  }: { readonly within: string; readonly gone: ReadonlySet<string>; readonly tree: ExportTree },
): string {
  let at = pointer;
  for (;;) {
    const around = at.slice(0, at.lastIndexOf("/"));
    const outer = around.slice(0, Math.max(0, around.lastIndexOf("/")));
    if (
      around === "" ||
      around === within ||
      Array.isArray(valueAt(root, around)) ||
      Array.isArray(valueAt(root, outer))
    )
      return at;
    const stays = [...leaves.keys()].some((leaf) => leaf.startsWith(`${around}/`) && !gone.has(leaf));
    if (stays) return at;
    at = around;
  }
}

function byItem<T extends { readonly item: ItemPath }>(
  places: readonly T[],
): readonly (readonly [ItemPath, readonly T[]])[] {
  const groups = new Map<ItemPath, T[]>();
  for (const place of places) {
    const known = groups.get(place.item);
    if (known === undefined) groups.set(place.item, [place]);
    else known.push(place);
  }
  return [...groups];
}

export function placeId(place: Binding | MissingPlace): string {
  return pathId([...place.item, ...("names" in place ? place.names : ["?"])]);
}
