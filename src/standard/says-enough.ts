import { type JsonObject, pointerTo } from "../changes/index.ts";
import { type Configuration, inspectDocument } from "../model/index.ts";
import type { MissingItem } from "./deviations.ts";
import { withSlot } from "./free-slot.ts";
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
