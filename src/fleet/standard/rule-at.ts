import type { HoldRule } from "./compile.ts";
import { fitsPlace } from "./pattern.ts";

/** The rule that counts at a place; undefined where the standard says nothing. */
export function ruleAt<Hold>(
  rules: ReadonlyMap<string, readonly HoldRule<Hold>[]>,
  field: string,
  path: readonly string[],
): HoldRule<Hold> | undefined {
  return rules.get(field)?.find((rule) => fitsPlace(rule.pattern, path));
}
