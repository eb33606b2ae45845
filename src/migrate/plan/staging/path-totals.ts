import type { Configuration } from "../../../model/index.ts";
import { figure } from "../figure.ts";
import { clean } from "./restage.ts";

/** Largest deviation of any path's total from what was wanted. */
export function largestDeviation(wanted: Configuration, next: Configuration): number {
  const now = pathTotals(next);
  let largest = 0;
  for (const [path, total] of pathTotals(wanted)) {
    largest = Math.max(largest, Math.abs((now.get(path) ?? total) - total));
  }
  return figure(largest, 3);
}

/** Level of every path without its filters, by the path's name. */
function pathTotals(configuration: Configuration): ReadonlyMap<string, number> {
  const totals = new Map<string, number>();
  const trims = new Map(
    configuration.sources.flatMap(({ channels }) => channels.map(({ id, gainDb }) => [id, gainDb] as const)),
  );
  const channelLevels = new Map(configuration.channels.map(({ id, levelDb }) => [id, levelDb]));
  for (const preset of configuration.presets) {
    for (const route of preset.routing) {
      for (const output of configuration.outputs) {
        const part = output.mix.find(({ channelId }) => channelId === route.channelId);
        if (part === undefined) continue;
        totals.set(
          `${preset.id}/${route.id}/${output.id}`,
          clean(
            (trims.get(route.sourceChannelId) ?? 0) +
              route.gainDb +
              preset.levelDb +
              (channelLevels.get(route.channelId) ?? 0) +
              part.gainDb +
              output.gainDb,
          ),
        );
      }
    }
  }
  return totals;
}
