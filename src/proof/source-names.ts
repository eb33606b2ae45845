import type { Configuration } from "../model/index.ts";

/**
 * The key of a source of the new configuration in the old one: its own where the old configuration has it, else that of the
 * source which the same preset took before, unless that one is still there.
 */
export function sourceNames(before: Configuration, after: Configuration): (sourceId: string) => string {
  const known = new Set(before.sources.map(({ id }) => id));
  const still = new Set(after.sources.map(({ id }) => id));
  const taken = new Map(before.presets.map(({ id, sourceId }) => [id, sourceId]));
  const names = new Map<string, string>();
  for (const { id, sourceId } of after.presets) {
    const old = taken.get(id);
    if (known.has(sourceId) || old === undefined || still.has(old)) continue;
    if (!names.has(sourceId)) names.set(sourceId, old);
  }
  return (sourceId) => names.get(sourceId) ?? sourceId;
}
