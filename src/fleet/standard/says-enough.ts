import {
  type Configuration,
  inspectDocument,
  type JsonObject,
  placeAt,
  pointerTo,
} from "../../model/index.ts";
import type { CompiledStandard, HeldLeaf } from "./compile.ts";
import type { MissingItem, ValueDeviation } from "./deviations.ts";
import { withSlot } from "./free-slot.ts";
import { ruleAt } from "./rule-at.ts";
import { writeAt } from "./write-at.ts";

/** An item of a standard is held against the schema once, whatever the number of screens that lack it. */
const known = new WeakMap<JsonObject, boolean>();

/** Whether a standard says enough of an item for a configuration to have it. */
export function saysEnough(configuration: Configuration, { path, item }: MissingItem): boolean {
  const before = known.get(item);
  if (before !== undefined) return before;
  const draft = structuredClone(configuration);
  writeAt(draft, path, withSlot(path, item, 1));
  const at = pointerTo(draft, path);
  const enough = !inspectDocument(JSON.stringify(draft)).shape.problems.some(({ pointer }) =>
    pointer.startsWith(at),
  );
  known.set(item, enough);
  return enough;
}

/** A group of members of a standard is held against the schema once, whatever the number of screens that lack it. */
const knownGroups = new WeakMap<CompiledStandard, Map<string, boolean>>();

/**
 * Whether a value has a place to go to: where a screen has nothing of the group that it belongs to (no paging, no music
 * between shows), the standard has to say all of the group.
 */
export function groupSaysEnough(
  configuration: Configuration,
  { path, field }: Pick<ValueDeviation, "path" | "field">,
  standard: CompiledStandard,
): boolean {
  const group = path.slice(0, -1);
  if (group.length === 0 || placeAt(configuration, group)?.value !== undefined) return true;
  const groups = knownGroups.get(standard) ?? new Map<string, boolean>();
  knownGroups.set(standard, groups);
  const at = group.join("/");
  const before = groups.get(at);
  if (before !== undefined) return before;
  const draft = structuredClone(configuration);
  const inside = `${field.slice(0, field.lastIndexOf("."))}.`;
  for (const other of [...standard.leaves.keys()].filter((each) => each.startsWith(inside))) {
    const to = [...group, ...other.slice(inside.length).split(".")];
    const rule = ruleAt(standard.leaves, other, to) as HeldLeaf | undefined;
    if (rule?.hold.kind === "exactly") writeAt(draft, to, rule.hold.value);
  }
  const pointer = pointerTo(draft, group);
  const enough = !inspectDocument(JSON.stringify(draft)).shape.problems.some((problem) =>
    problem.pointer.startsWith(pointer),
  );
  groups.set(at, enough);
  return enough;
}
