import { configuration09To10 } from "./configuration-0.9-to-1.0.ts";
import { unitProfile10To20 } from "./unit-profile-1.0-to-2.0.ts";
import type { Upgrade } from "./upgrade.ts";

export type { OldDocument, Upgrade } from "./upgrade.ts";

/** Every upgrade there is. Released upgrades are never changed: old documents stay readable for ever. */
export const UPGRADES: readonly Upgrade[] = [configuration09To10, unitProfile10To20];

/** The upgrades, in order, that bring a document of a version (MAJOR.MINOR) to the present one; [] if there are none. */
export function upgradesFrom(kind: string, version: string): readonly Upgrade[] {
  const next = UPGRADES.find((upgrade) => upgrade.kind === kind && upgrade.from === version);
  return next === undefined ? [] : [next, ...upgradesFrom(kind, next.to)];
}
