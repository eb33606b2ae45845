import { type Random, seededRandom } from "../../src/base/numeric/index.ts";
import type { Configuration } from "../../src/model/index.ts";
import { type Adjustable, adjustablesOf, adjusted } from "./builders/adjustables.ts";
import { fleetTemplate } from "./builders/fleet-template.ts";
import { fixedNetwork } from "./builders/network.ts";
import { writeAt } from "./builders/settle.ts";
import { skarn30 } from "./profiles/skarn-30.ts";

/** The unit of every screen of a fleet. */
export const FLEET_PROFILE = skarn30;

/** One screen as it stands after one visit. */
export interface FleetVisit {
  readonly siteId: string;
  readonly screenId: string;
  /** From 0: the alignment. */
  readonly visit: number;
  /** RFC 3339 date and time; half a year from visit to visit. */
  readonly takenAt: string;
  /** Equal (the same object) to that of the visit before when nothing was changed. */
  readonly configuration: Configuration;
}

export interface FleetOptions {
  readonly screens: number;
  /** Visits to each screen, the alignment included. */
  readonly visits: number;
  readonly seed: number;
}

/** How much screens and visits differ. */
const SCREEN_SHARE = 0.2;
const VISIT_SHARE = 0.005;
const QUIET_VISITS = 0.3;
const SCREENS_PER_SITE = 9;

/**
 * An exhibitor's screens and their visits, screen by screen: each screen differs from one template in a fifth of its
 * values, each visit changes 0.5 % of them, three visits in ten change nothing. All values stay on the unit's steps.
 * Crossovers, limiters and routing are left alone. The same options give the same fleet.
 */
export function* makeFleet({ screens, visits, seed }: FleetOptions): Generator<FleetVisit, void> {
  const template = fleetTemplate();
  const leaves = countLeaves(template);
  const adjustables = adjustablesOf(template, FLEET_PROFILE);
  for (let screen = 0; screen < screens; screen += 1) {
    const random = seededRandom(seed * 1_000_003 + screen);
    const own = named(template, screen);
    let configuration = changed(own, adjustables, Math.round(leaves * SCREEN_SHARE), random);
    for (let visit = 0; visit < visits; visit += 1) {
      if (visit > 0 && random() >= QUIET_VISITS) {
        configuration = changed(configuration, adjustables, Math.round(leaves * VISIT_SHARE), random);
      }
      const { siteId, screenId } = configuration.screen;
      yield { siteId, screenId, visit, takenAt: dateOf(screen, visit), configuration };
    }
  }
}

/** A copy of a configuration with a number of its values moved by a few steps. */
export function changed(
  configuration: Configuration,
  adjustables: readonly Adjustable[],
  count: number,
  random: Random,
): Configuration {
  const copy = structuredClone(configuration);
  for (const adjustable of picked(adjustables, count, random)) {
    writeAt(copy, adjustable.path, adjusted(copy, adjustable, random));
  }
  return copy;
}

/** Different items, by a shuffle that stops when there are enough. */
function picked<T>(items: readonly T[], count: number, random: Random): T[] {
  const pool = [...items];
  const wanted = Math.min(count, pool.length);
  for (let index = 0; index < wanted; index += 1) {
    const other = index + Math.floor(random() * (pool.length - index));
    [pool[index], pool[other]] = [pool[other]!, pool[index]!];
  }
  return pool.slice(0, wanted);
}

/** The template under a screen's own names, serial number and addresses. */
function named(template: Configuration, index: number): Configuration {
  const site = Math.floor(index / SCREENS_PER_SITE) + 1;
  const screen = (index % SCREENS_PER_SITE) + 1;
  const siteId = `site-${String(site).padStart(4, "0")}`;
  return {
    ...template,
    screen: {
      ...template.screen,
      siteId,
      siteName: `Site ${site}`,
      screenId: `screen-${screen}`,
      screenName: `Screen ${screen}`,
    },
    unit: {
      ...template.unit,
      serial: `G28-${String(100000 + index)}`,
      label: `Site ${site} Screen ${screen}`,
    },
    network: fixedNetwork({ hostname: `${siteId}-${screen}-sound`, host: 20 + screen, audio: true }),
  };
}

function dateOf(screen: number, visit: number): string {
  const day = Date.UTC(2021, 0, 11, 9) + (visit * 182 + (screen % 150)) * 86_400_000;
  return new Date(day).toISOString().replace(".000Z", "Z");
}

/** How many values a document holds: texts, numbers, yes and no. */
export function countLeaves(node: unknown): number {
  if (typeof node !== "object" || node === null) return 1;
  return Object.values(node).reduce<number>((sum, child) => sum + countLeaves(child), 0);
}
