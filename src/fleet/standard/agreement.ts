import { fieldAt } from "../../model/index.ts";
import type { HeldLeaf, HeldList } from "./compile.ts";
import { badLine } from "./standard-errors.ts";

/**
 * Refuses a standard that no screen could follow: two presets in one slot, or a place that names an item which a list of
 * these and no other does not have.
 *
 * @throws BoothkeepError standard.bad-line
 */
export function checkAgreement(leaves: readonly HeldLeaf[], lists: readonly HeldList[]): void {
  checkSlots(leaves);
  checkReferences(leaves, lists);
}

function checkSlots(leaves: readonly HeldLeaf[]): void {
  const slots = new Map<unknown, HeldLeaf>();
  for (const rule of thatCount(leaves)) {
    if (rule.field !== "presets[].slot" || rule.hold.kind !== "exactly") continue;
    const [, preset] = rule.pattern;
    const other = slots.get(rule.hold.value);
    if (other !== undefined && other.pattern[1] !== preset) {
      throw badLine(
        rule.line,
        `Slot ${rule.hold.value} is for '${other.pattern[1]}' and for '${preset}'.`,
        "Give each preset a slot of its own.",
      );
    }
    slots.set(rule.hold.value, rule);
  }
}

function checkReferences(leaves: readonly HeldLeaf[], lists: readonly HeldList[]): void {
  for (const { field, hold, line, pattern } of thatCount(leaves)) {
    const list = fieldAt(field)?.refersTo;
    if (list === undefined || hold.kind !== "exactly" || hold.value === null) continue;
    const rule = thatCount(lists).find((item) => item.field === list && !list.includes("[]"));
    if (rule?.hold.kind !== "these-only" || rule.hold.items.has(String(hold.value))) continue;
    throw badLine(
      line,
      `'${pattern.join("/")}' names '${hold.value}', which the list at /lines/${rule.line} does not have.`,
      "Add it to that list, or name another one.",
    );
  }
}

/** Of rules for the very same place the last: that is the one that counts. */
function thatCount<Rule extends { readonly pattern: readonly string[] }>(
  rules: readonly Rule[],
): readonly Rule[] {
  return [...new Map(rules.map((rule) => [rule.pattern.join("/"), rule])).values()];
}
