import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  narrowestWindows,
  type Window,
  type WindowGroup,
  windowNearest,
} from "../../../src/migrate/plan/smallest-window.ts";

/** Every choice there is, one by one. */
function narrowestByTrying(groups: readonly WindowGroup[]): number {
  let best = Number.POSITIVE_INFINITY;
  const choose = (index: number, chosen: readonly number[]): void => {
    const group = groups[index];
    if (group === undefined) {
      best = Math.min(best, chosen.length === 0 ? 0 : Math.max(...chosen) - Math.min(...chosen));
      return;
    }
    for (const { lists } of group) {
      const pickList = (list: number, values: readonly number[]): void => {
        const candidates = lists[list];
        if (candidates === undefined) choose(index + 1, [...chosen, ...values]);
        else for (const item of candidates) pickList(list + 1, [...values, item.value]);
      };
      pickList(0, []);
    }
  };
  choose(0, []);
  return best;
}

const choice = fc.record({
  value: fc.integer({ min: -20, max: 20 }).map((k) => k / 10),
  change: fc.nat(3),
});
const alternative = fc.record({
  change: fc.nat(3),
  lists: fc.array(fc.array(choice, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 2 }),
});
const group = fc.array(alternative, { minLength: 1, maxLength: 2 });

const plain = (...lists: readonly (readonly number[])[]): WindowGroup => [
  { change: 0, lists: lists.map((values) => values.map((value) => ({ value, change: Math.abs(value) }))) },
];

function chosen(groups: readonly WindowGroup[], window: Window): number[] {
  return window.picks.flatMap(({ alternative: taken, candidates }, index) =>
    candidates.map((at, list) => groups[index]![taken]!.lists[list]![at]!.value),
  );
}

describe("narrowestWindows", () => {
  it("finds the width that trying every choice finds, and its picks lie inside", () => {
    fc.assert(
      fc.property(fc.array(group, { minLength: 1, maxLength: 4 }), (groups) => {
        const windows = narrowestWindows(groups);
        const best = narrowestByTrying(groups);
        expect(windows.length).toBeGreaterThan(0);
        for (const window of windows) {
          expect(window.high - window.low).toBeCloseTo(best, 9);
          for (const item of chosen(groups, window)) {
            expect(item).toBeGreaterThanOrEqual(window.low - 1e-9);
            expect(item).toBeLessThanOrEqual(window.high + 1e-9);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it("rounds two ways alike rather than each to its nearest step", () => {
    // −0.2 and +0.3 are the nearest errors on a step of 0.5; −0.2 and −0.2 differ by nothing.
    const groups = [plain([-0.2, 0.3]), plain([0.3, -0.2])];
    expect(narrowestWindows(groups).map(({ low, high }) => [low, high])).toEqual([
      [-0.2, -0.2],
      [0.3, 0.3],
    ]);
    expect(windowNearest(narrowestWindows(groups), 0)?.low).toBe(-0.2);
  });

  it("changes as little as it can among equally good choices", () => {
    const groups: WindowGroup[] = [
      [
        { change: 0.5, lists: [[{ value: 0, change: 0 }]] },
        { change: 0, lists: [[{ value: 0, change: 0.1 }]] },
      ],
    ];
    expect(narrowestWindows(groups)[0]?.picks).toEqual([{ alternative: 1, candidates: [0] }]);
  });

  it("has no window where a thing has no candidate, and an empty one where there is nothing to choose", () => {
    expect(narrowestWindows([plain([]), plain([0])])).toEqual([]);
    expect(narrowestWindows([])).toEqual([{ low: 0, high: 0, picks: [] }]);
  });
});
