import type { Change } from "../changes/index.ts";

/** Changes of just these fields. */
export function at(changes: readonly Change[], ...fields: readonly string[]): readonly Change[] {
  return changes.filter(({ field }) => fields.includes(field));
}

/** Changes of a part of the configuration and of everything below it. */
export function within(changes: readonly Change[], part: string): readonly Change[] {
  return changes.filter(
    ({ field }) => field === part || field.startsWith(`${part}.`) || field.startsWith(`${part}[`),
  );
}

/** Changes grouped by the first parts of their places: by item at depth 2, by item of an item at depth 4. */
export function byItem(changes: readonly Change[], depth: number): readonly (readonly Change[])[] {
  const groups = new Map<string, Change[]>();
  for (const change of changes) {
    const key = JSON.stringify(change.path.slice(0, depth));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [change]);
    else group.push(change);
  }
  return [...groups.values()];
}

/** The number before and after, of a change between two numbers. */
export function numbersOf(change: Change): readonly [before: number, after: number] | undefined {
  return change.kind === "changed" && typeof change.before === "number" && typeof change.after === "number"
    ? [change.before, change.after]
    : undefined;
}
