import { configuration09To10 } from "./configuration-0.9-to-1.0.ts";
import type { Upgrade } from "./upgrade.ts";

/** Every upgrade there is. Released upgrades are never changed: old documents stay readable for ever. */
export const UPGRADES: readonly Upgrade[] = [configuration09To10];

/** The upgrades, in order, that bring a document of a version (MAJOR.MINOR) to the present one; [] if there are none. */
export function upgradesFrom(kind: string, version: string): readonly Upgrade[] {
  const next = UPGRADES.find((upgrade) => upgrade.kind === kind && upgrade.from === version);
  return next === undefined ? [] : [next, ...upgradesFrom(kind, next.to)];
}
