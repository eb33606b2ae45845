import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyChanges, changesBetween, threeWay } from "../../../src/diff/changes/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { expectEqual } from "./expect-equal.ts";
import { edit, withEdits } from "./random-edits.ts";
import { asLeft, small } from "./samples.ts";

function withGain(document: Configuration, id: string, gainDb: number): Configuration {
  return {
    ...document,
    outputs: document.outputs.map((output) => (output.id === id ? { ...output, gainDb } : output)),
  };
}

const [first, second] = [asLeft.outputs[0]!.id, asLeft.outputs[1]!.id];

describe("threeWay", () => {
  it("tells apart who changed what", () => {
    const left = withGain(withGain(asLeft, first, -11), second, -3.25);
    const right = withGain(withGain(asLeft, second, -3.25), asLeft.outputs[2]!.id, -17);
    const { both, left: ours, right: theirs, conflicts } = threeWay(asLeft, left, right);
    expect(both.map(({ path }) => path)).toEqual([["outputs", second, "gainDb"]]);
    expect(ours.map(({ path }) => path)).toEqual([["outputs", first, "gainDb"]]);
    expect(theirs.map(({ path }) => path)).toEqual([["outputs", asLeft.outputs[2]!.id, "gainDb"]]);
    expect(conflicts).toEqual([]);
  });

  it("calls different values for one place a conflict", () => {
    const { conflicts, left, right } = threeWay(
      asLeft,
      withGain(asLeft, first, -11),
      withGain(asLeft, first, -12),
    );
    expect(conflicts).toMatchObject([
      { path: ["outputs", first, "gainDb"], left: [{ after: -11 }], right: [{ after: -12 }] },
    ]);
    expect([left, right]).toEqual([[], []]);
  });

  it("calls a change inside a part that the other removed a conflict", () => {
    const removed = { ...asLeft, outputs: asLeft.outputs.slice(1) };
    for (const [a, b] of [
      [removed, withGain(asLeft, first, -11)],
      [withGain(asLeft, first, -11), removed],
    ] as const) {
      const { conflicts } = threeWay(asLeft, a, b);
      expect(conflicts.map(({ path }) => path)).toEqual([["outputs", first]]);
    }
  });

  it("loses no change: each is in exactly one of the four", () => {
    const edits = fc.array(edit, { maxLength: 8 });
    fc.assert(
      fc.property(fc.constant(small), edits, edits, (base, a, b) => {
        const [left, right] = [withEdits(base, a), withEdits(base, b)];
        const result = threeWay(base, left, right);
        const count = (side: "left" | "right"): number =>
          result.both.length +
          result[side].length +
          result.conflicts.reduce((sum, item) => sum + item[side].length, 0);
        expect(count("left")).toBe(changesBetween(base, left, { identity: "literal" }).changes.length);
        expect(count("right")).toBe(changesBetween(base, right, { identity: "literal" }).changes.length);
      }),
      { numRuns: runs(40) },
    );
  });

  it("with the base on one side gives the other side", () => {
    fc.assert(
      fc.property(fc.constant(small), fc.array(edit, { maxLength: 8 }), (base, edits) => {
        const changed = withEdits(base, edits);
        const result = threeWay(base, base, changed);
        expect([result.both, result.left, result.conflicts]).toEqual([[], [], []]);
        const set = changesBetween(base, changed, { identity: "literal" });
        expectEqual(applyChanges(base, { ...set, changes: result.right }), changed);
      }),
      { numRuns: runs(30) },
    );
  });
});
