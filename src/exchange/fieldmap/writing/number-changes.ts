import type { Binding, Interpretation } from "../interpretation.ts";
import type { StructuralChange } from "../structural-change.ts";
import { memberAt, pathId } from "./keyed-document.ts";
import { placeId } from "./place-changes.ts";
import type { ExportState, PlannedChange } from "./planned-change.ts";
import type { Writer } from "./writer.ts";

type NumberBinding = Extract<Binding, { readonly kind: "number" }>;

/** Lists of numbers that each stand by themselves, where the configuration has more of them or fewer. */
export function numbersToChange(
  { interpretation }: ExportState,
  writer: Writer,
  kind: "add" | "remove",
): readonly PlannedChange[] {
  const groups = new Map<string, NumberBinding[]>();
  for (const binding of interpretation.bindings) {
    if (binding.kind !== "number") continue;
    const id = placeId(binding);
    const known = groups.get(id);
    if (known === undefined) groups.set(id, [binding]);
    else known.push(binding);
  }
  return [...groups].flatMap(([id, held]) => {
    const { item, names, rule } = held[0]!;
    const around = writer.document.at(item);
    const found = memberAt(around, names);
    if (around === undefined || (found === undefined && rule.optional !== true)) return [];
    const wanted = (found ?? []) as readonly number[];
    const changes = kind === "add" ? added(held, wanted, writer) : removed(held, wanted);
    if (changes.length === 0) return [];
    return [
      {
        ...{ id: `${kind} numbers ${pathId(item)} ${pathId(names)}`, item, fields: [names], changes },
        kind: kind === "add" ? ("fill" as const) : ("empty" as const),
        holds: (next: Interpretation) =>
          next.bindings.filter((binding) => placeId(binding) === id).length === wanted.length,
      },
    ];
  });
}

function added(
  held: readonly NumberBinding[],
  wanted: readonly number[],
  writer: Writer,
): StructuralChange[] {
  const { leaf, rule, field } = held.at(-1)!;
  return wanted.slice(held.length).flatMap((value) => {
    const raw = writer.converter(rule, field).write(value, leaf.raw);
    const parent = leaf.pointer.slice(0, leaf.pointer.lastIndexOf("/"));
    const copy = { template: leaf.pointer, parent, name: undefined, after: leaf.pointer };
    return raw === undefined
      ? []
      : [{ kind: "copy" as const, ...copy, raws: new Map([[leaf.pointer, raw]]) }];
  });
}

function removed(held: readonly NumberBinding[], wanted: readonly number[]): StructuralChange[] {
  return held.slice(wanted.length).map(({ leaf }) => ({ kind: "remove" as const, pointer: leaf.pointer }));
}
