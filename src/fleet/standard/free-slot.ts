import type { Configuration, JsonObject, UnitProfile } from "../../model/index.ts";
import type { MissingItem } from "./deviations.ts";

/** A preset of which the standard does not say the slot, with one; any other item as it is. */
export function withSlot(path: readonly string[], item: JsonObject, slot: number): JsonObject {
  return path[0] === "presets" && path.length === 2 && item.slot === undefined ? { ...item, slot } : item;
}

/** The lowest slot that no preset has and the standard wants for none. */
export function freeSlotBeside(
  { presets }: Configuration,
  { rule }: MissingItem,
  profile: UnitProfile | undefined,
): number {
  const items = rule.hold.kind === "left-to-screen" ? [] : [...rule.hold.items.values()];
  const taken = new Set<unknown>([...presets, ...items].map(({ slot }) => slot));
  return lowestFree(taken, profile?.presets.slotMin);
}

/** The lowest slot that is not taken. */
export function lowestFree(taken: ReadonlySet<unknown>, slotMin = 1): number {
  let slot = slotMin;
  while (taken.has(slot)) slot += 1;
  return slot;
}
