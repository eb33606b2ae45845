import type { SettingDifference } from "../model/index.ts";

/** A setting that is not there. */
export const NONE = {};

type Value = SettingDifference["before"];

/** The named values that differ; a value that one side lacks is null. */
export function differencesOf<Setting extends object>(
  old: Partial<Setting>,
  now: Partial<Setting>,
  names: readonly (keyof Setting & string)[],
): SettingDifference[] {
  return names.flatMap((name) => {
    const before = (old[name] ?? null) as Value;
    const after = (now[name] ?? null) as Value;
    return before === after ? [] : [{ name, before, after }];
  });
}
