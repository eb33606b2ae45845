import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Configuration } from "../../../src/model/index.ts";

const samples = join(import.meta.dirname, "..", "..", "..", "samples");

function sample(...path: readonly string[]): Configuration {
  return JSON.parse(readFileSync(join(samples, ...path), "utf8")) as Configuration;
}

/** A large auditorium as left, and as found half a year later. */
export const asLeft = sample("screens", "lantern-mill", "screen-1.json");
export const asFound = sample("visits", "lantern-mill", "screen-1-autumn.json");

/** Four screens at two sites. */
export const screens: readonly Configuration[] = [
  asLeft,
  sample("screens", "lantern-mill", "screen-4.json"),
  sample("screens", "copper-heron", "screen-1.json"),
  sample("screens", "copper-heron", "screen-2.json"),
];

/** Pairs of them in which every screen stands on both sides: twins, strangers, one screen at two times. */
export const pairs: readonly (readonly [Configuration, Configuration])[] = [
  [asLeft, asFound],
  ...screens.map((screen, index) => [screen, screens[(index + 1) % screens.length]!] as const),
  [screens[2]!, asLeft],
];

/** The first screen cut down to a few items of each list, so that many random edits can be tried. */
export const small: Configuration = {
  ...asLeft,
  sources: asLeft.sources.slice(0, 2),
  equalizations: asLeft.equalizations
    .slice(0, 2)
    .map((set) => ({ ...set, channels: set.channels.slice(0, 3) })),
  presets: asLeft.presets.slice(0, 3).map((preset) => ({ ...preset, routing: preset.routing.slice(0, 5) })),
  loudspeakers: asLeft.loudspeakers.slice(0, 4),
  outputs: asLeft.outputs.slice(0, 7),
  automation: asLeft.automation.slice(0, 4),
};
