import type { MapRule, RuleCondition } from "../../model/index.ts";

/** The condition of a rule, if it has one. */
export function conditionOf(rule: MapRule): RuleCondition | undefined {
  return rule.kind === "value" || rule.kind === "fixed" ? rule.when : undefined;
}

/** Whether a rule holds for an item; `lookUp` gives the item's fields. */
export function holds(rule: MapRule, lookUp: (field: string) => unknown): boolean {
  const when = conditionOf(rule);
  if (when === undefined) return true;
  const value = lookUp(when.field);
  const is = when.is === undefined ? value !== undefined : when.is.some((one) => one === value);
  return is !== (when.not ?? false);
}
