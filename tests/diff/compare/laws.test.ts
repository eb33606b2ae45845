import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SEVERITIES } from "../../../src/base/findings/index.ts";
import { compareConfigurations } from "../../../src/diff/compare/index.ts";
import type { Comparison, Configuration } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { edit, withEdits } from "../changes/random-edits.ts";
import { asFound, asLeft, pairs, screens, small } from "../changes/samples.ts";

const edits = fc.array(edit, { minLength: 1, maxLength: 10 });

/** Every raw change is accounted for by exactly one finding, or counted. */
function expectBalanced({ findings, belowTolerance, changes, counts }: Comparison): void {
  const told = [...findings.flatMap(({ causes }) => causes), ...belowTolerance].sort((a, b) => a - b);
  expect(told).toEqual(changes.map((_, index) => index));
  expect(counts.changes).toBe(changes.length);
  expect(counts.error + counts.warning + counts.advice).toBe(findings.length);
}

describe("compareConfigurations", () => {
  it("has nothing to say of a document and itself", () => {
    for (const screen of screens) {
      const { findings, changes, belowTolerance } = compareConfigurations(screen, structuredClone(screen));
      expect([findings, changes, belowTolerance]).toEqual([[], [], []]);
    }
  });

  it("accounts for every change exactly once, on every pair of samples", () => {
    for (const [before, after] of pairs) expectBalanced(compareConfigurations(before, after));
  });

  it("accounts for every change exactly once, on random edits", () => {
    fc.assert(
      fc.property(edits, (list) => expectBalanced(compareConfigurations(small, withEdits(small, list)))),
      { numRuns: runs(40) },
    );
  });

  it("says the same whatever the order of the lists", () => {
    const turned = {
      ...asFound,
      outputs: [...asFound.outputs].reverse(),
      presets: [...asFound.presets].reverse(),
    };
    const words = (after: Configuration) =>
      compareConfigurations(asLeft, after).findings.map((one) => one.words);
    expect(words(turned)).toEqual(words(asFound));
  });

  it("puts the most serious first", () => {
    fc.assert(
      fc.property(edits, (list) => {
        const ranks = compareConfigurations(small, withEdits(small, list)).findings.map(({ severity }) =>
          SEVERITIES.indexOf(severity),
        );
        expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
      }),
      { numRuns: runs(30) },
    );
  });

  it("tells no number that is none, and no place without words", () => {
    for (const after of screens.slice(1)) {
      for (const { words, place, numbers, effects } of compareConfigurations(asLeft, after).findings) {
        expect(words).toMatch(/\.$/);
        expect(`${words} ${place.words} ${JSON.stringify([numbers, effects])}`).not.toMatch(
          /NaN|undefined|null|Infinity/,
        );
        expect(place.words).not.toBe("");
      }
    }
  });
});
