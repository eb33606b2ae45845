import { seededRandom } from "../../src/base/numeric/index.ts";
import type { Configuration, UnitProfile } from "../../src/model/index.ts";
import { adjustablesOf } from "./builders/adjustables.ts";
import { fleetTemplate } from "./builders/fleet-template.ts";
import { changed, countLeaves } from "./fleet.ts";
import { dunlin16 } from "./profiles/dunlin-16.ts";
import { skarn30 } from "./profiles/skarn-30.ts";
import { whimbrel32 } from "./profiles/whimbrel-32.ts";
import { copperHeron1 } from "./screens/copper-heron-1.ts";
import { copperHeron2 } from "./screens/copper-heron-2.ts";
import { lanternMill1 } from "./screens/lantern-mill-1.ts";
import { lanternMill4 } from "./screens/lantern-mill-4.ts";

/** The units of a mixed fleet. */
export const MIXED_FLEET_PROFILES: readonly UnitProfile[] = [dunlin16, skarn30, whimbrel32];

/** How much screens of one template differ. */
const SCREEN_SHARE = 0.05;
const SCREENS_PER_SITE = 8;

/**
 * Screens of an exhibitor who bought units as they came: small houses, large ones, one with every preset slot in use. Each
 * differs from its template in a twentieth of its values. The same options give the same screens.
 */
export function* makeMixedFleet({
  screens,
  seed,
}: {
  readonly screens: number;
  readonly seed: number;
}): Generator<Configuration, void> {
  const templates = [lanternMill4(), lanternMill1(), copperHeron2(), copperHeron1(), fleetTemplate()].map(
    (template) => {
      const profile = MIXED_FLEET_PROFILES.find(({ id }) => id === template.unit.profileId)!;
      return { template, adjustables: adjustablesOf(template, profile), leaves: countLeaves(template) };
    },
  );
  for (let index = 0; index < screens; index += 1) {
    const { template, adjustables, leaves } = templates[index % templates.length]!;
    const random = seededRandom(seed * 1_000_003 + index);
    const count = Math.round(leaves * SCREEN_SHARE);
    yield changed(named(template, index), adjustables, count, random);
  }
}

function named(template: Configuration, index: number): Configuration {
  const site = Math.floor(index / SCREENS_PER_SITE) + 1;
  const screen = (index % SCREENS_PER_SITE) + 1;
  const siteId = `house-${String(site).padStart(3, "0")}`;
  return {
    ...template,
    screen: {
      ...template.screen,
      siteId,
      siteName: `House ${site}`,
      screenId: `screen-${screen}`,
      screenName: `Screen ${screen}`,
    },
    unit: { ...template.unit, serial: `${template.unit.profileId}-${String(100_000 + index)}` },
    network: { ...template.network, hostname: `${siteId}-${screen}-sound` },
  };
}
