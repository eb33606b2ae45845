import { type ItemPath, itemKey, type KeyedItem, type ListRule } from "../../../model/index.ts";
import type { FoundItem, FoundList } from "../interpretation.ts";
import type { LoadedMap } from "../load-map.ts";
import { Copier } from "./copier.ts";
import { memberAt, pathId } from "./keyed-document.ts";
import type { ExportState, PlannedChange } from "./planned-change.ts";
import { TemplateFinder } from "./templates.ts";
import type { Writer } from "./writer.ts";

/** Items that the configuration has and the export lacks: each becomes a copy of an item that is most like it. */
export function itemsToAdd(state: ExportState, writer: Writer, loaded: LoadedMap): readonly PlannedChange[] {
  const compared = comparedLists(state, writer);
  if (compared.every(({ wanted, held }) => wanted.every((key) => held.has(key)))) return [];
  const finder = new TemplateFinder(state);
  const copier = new Copier(state, writer, loaded);
  return compared.flatMap((lists) => {
    return lists.wanted.flatMap((key) => {
      if (lists.held.has(key)) return [];
      const path = [...lists.list.path, key];
      const template = finder.templateFor(key, writer.document.at(path), lists);
      const copy = template === undefined ? undefined : copier.copy(lists.list.rule, path, template);
      if (template === undefined || copy === undefined) return [];
      return [
        {
          id: `add ${pathId(path)}`,
          kind: "add" as const,
          item: path,
          fields: [],
          like: keyOf(template.item),
          changes: [copy],
          holds: holdsJust(lists.list.path, key, lists),
        },
      ];
    });
  });
}

/** Items that the export has and the configuration lacks. */
export function itemsToRemove(state: ExportState, writer: Writer): readonly PlannedChange[] {
  const rowsOf = rowsElsewhere(state);
  return comparedLists(state, writer).flatMap(({ list, wanted, held }) => {
    const kept = new Set(wanted);
    return [...held].flatMap(([key, item]) => {
      if (kept.has(key)) return [];
      const stay = new Set([...held.keys()].filter((other) => kept.has(other)));
      return [
        {
          id: `remove ${pathId(item.path)}`,
          kind: "remove" as const,
          item: item.path,
          fields: [],
          changes: [item.pointer, ...rowsOf(item)].map((pointer) => ({ kind: "remove" as const, pointer })),
          holds: (next: ExportState["interpretation"]) => {
            const keys = keysAt(next, list.path);
            return !keys.includes(key) && [...stay].every((other) => keys.includes(other));
          },
        },
      ];
    });
  });
}

/** Items of lists of an item that stand apart from it: rows of other tables, which nobody would know any more. */
function rowsElsewhere({ interpretation }: ExportState): (item: FoundItem) => readonly string[] {
  const apart = interpretation.lists.filter(({ rule }) => rule.where !== undefined || rule.within === "root");
  const rows = apart.flatMap(({ path, items }) =>
    items.map(({ pointer }) => ({ id: pathId(path), pointer })),
  );
  return ({ path, pointer: own }) => {
    const prefix = pathId([...path, ""]);
    return rows
      .filter(({ id, pointer }) => id.startsWith(prefix) && !pointer.startsWith(`${own}/`))
      .map(({ pointer }) => pointer);
  };
}

/** A list in both documents. */
export interface ComparedList {
  readonly list: FoundList;
  /** Keys that the configuration has, in its order. */
  readonly wanted: readonly string[];
  /** What the export has, in its order. */
  readonly held: ReadonlyMap<string, FoundItem>;
}

/** Whether values of the items stand in several places of the export: no copy of one place makes a whole item. */
function isSpread({ rules }: ListRule): boolean {
  return rules.some((rule) => rule.kind === "value" && rule.root === true);
}

function comparedLists({ interpretation }: ExportState, writer: Writer): readonly ComparedList[] {
  return interpretation.lists.flatMap((list) => {
    const { rule, path, items } = list;
    if (rule.fixed === true || rule.unused !== undefined || isSpread(rule)) return [];
    const names = rule.list.split(".");
    const around = writer.document.at(path.slice(0, path.length - names.length));
    const holder = memberAt(around, names.slice(0, -1));
    if (holder === undefined) return [];
    const value = memberAt(holder, names.slice(-1));
    if (!Array.isArray(value) && rule.optional !== true) return [];
    const wanted = ((value ?? []) as readonly KeyedItem[]).map((item) => itemKey(item) ?? "");
    return [{ list, wanted, held: new Map(items.map((item) => [keyOf(item), item])) }];
  });
}

export function keyOf({ path }: FoundItem): string {
  return path.at(-1)!;
}

function keysAt({ lists }: ExportState["interpretation"], path: ItemPath): readonly string[] {
  const id = pathId(path);
  return lists.find((list) => pathId(list.path) === id)?.items.map(keyOf) ?? [];
}

/** Whether a list has a new item, all that it had, and none that nobody wants; none of them twice. */
function holdsJust(path: ItemPath, key: string, { held, wanted }: ComparedList) {
  const known = new Set([...held.keys(), ...wanted]);
  return (next: ExportState["interpretation"]): boolean => {
    const found = keysAt(next, path);
    const hasAll = found.includes(key) && [...held.keys()].every((other) => found.includes(other));
    return hasAll && found.length === new Set(found).size && found.every((other) => known.has(other));
  };
}
