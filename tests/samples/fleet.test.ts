import { describe, expect, it } from "vitest";
import { countLeaves, FLEET_PROFILE, type FleetVisit, makeFleet } from "../../samples/generate/fleet.ts";
import { validateConfiguration } from "../../src/model/generated/validators.js";
import { gridContains, limitedNumbers } from "../../src/profile/index.ts";

const SCREENS = 12;
const VISITS = 6;
const fleet = [...makeFleet({ screens: SCREENS, visits: VISITS, seed: 7 })];

function differing(a: unknown, b: unknown): number {
  if (typeof a !== "object" || a === null) return Object.is(a, b) ? 0 : 1;
  return Object.entries(a).reduce(
    (sum, [key, child]) => sum + differing(child, (b as Record<string, unknown>)[key]),
    0,
  );
}

/** Each visit with the one before it on the same screen. */
const pairs = fleet.flatMap((visit, index): [FleetVisit, FleetVisit][] =>
  visit.visit === 0 ? [] : [[fleet[index - 1]!, visit]],
);

describe("a fleet", () => {
  it("holds every visit of every screen, of about 5,400 values each", () => {
    expect(fleet.length).toBe(SCREENS * VISITS);
    expect(new Set(fleet.map(({ siteId, screenId }) => `${siteId}/${screenId}`)).size).toBe(SCREENS);
    expect(countLeaves(fleet[0]!.configuration)).toBeGreaterThan(5200);
    expect(countLeaves(fleet[0]!.configuration)).toBeLessThan(5600);
  });

  it("stays valid and on the unit's steps, however many visits", () => {
    for (const { configuration } of fleet.filter(({ visit }) => visit === VISITS - 1)) {
      validateConfiguration(configuration);
      expect(validateConfiguration.errors ?? []).toEqual([]);
      const off = limitedNumbers(configuration, FLEET_PROFILE).filter(
        ({ grid, value, tolerance }) => !gridContains(grid, value, tolerance),
      );
      expect(off.map(({ path, value }) => `${path.join("/")}: ${value}`)).toEqual([]);
    }
  });

  it("has screens that differ from each other in more than a fifth, never in a crossover", () => {
    const firsts = fleet.filter(({ visit }) => visit === 0).map(({ configuration }) => configuration);
    const total = countLeaves(firsts[0]);
    for (const other of firsts.slice(1)) {
      const share = differing(firsts[0], other) / total;
      expect(share).toBeGreaterThan(0.2);
      expect(share).toBeLessThan(0.4);
      expect(other.outputs.map(({ highPass }) => highPass)).toEqual(
        firsts[0]!.outputs.map(({ highPass }) => highPass),
      );
    }
  });

  it("has visits that change half a percent or nothing", () => {
    const counts = pairs.map(([before, after]) => differing(before.configuration, after.configuration));
    const quiet = counts.filter((count) => count === 0).length / counts.length;
    expect(quiet).toBeGreaterThan(0.15);
    expect(quiet).toBeLessThan(0.45);
    for (const count of counts.filter((item) => item > 0)) expect(count).toBe(27);
  });

  it("moves forward in time", () => {
    for (const [before, after] of pairs)
      expect(Date.parse(after.takenAt)).toBeGreaterThan(Date.parse(before.takenAt));
  });

  it("is the same for the same seed and another for another", () => {
    const [again] = makeFleet({ screens: 1, visits: 1, seed: 7 });
    const [other] = makeFleet({ screens: 1, visits: 1, seed: 8 });
    expect(again).toEqual(fleet[0]);
    expect(differing(again, other)).toBeGreaterThan(500);
  });
});
