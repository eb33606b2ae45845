import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { BoothkeepError } from "../../../src/base/errors/index.ts";
import { applyChanges, type Change, changesBetween, revertChanges } from "../../../src/diff/changes/index.ts";
import { type Configuration, type Json, pointerTo, valueAt } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { expectEqual } from "./expect-equal.ts";
import { edit, withEdits } from "./random-edits.ts";
import { asFound, asLeft, pairs, screens, small } from "./samples.ts";
import { line, walk } from "./walk-oracle.ts";

const asJson = (document: Configuration): Json => document as unknown as Json;
const lineOf = (change: Change): string =>
  line(
    change.path,
    change.kind === "added" ? undefined : change.before,
    change.kind === "removed" ? undefined : change.after,
  );
const edited = fc
  .tuple(fc.constant(small), fc.array(edit, { minLength: 0, maxLength: 12 }))
  .map(([screen, edits]) => [screen, withEdits(screen, edits)] as const);

function draftOf(document: Configuration): Configuration & Record<string, never> {
  return structuredClone(document) as never;
}

describe("changesBetween", () => {
  it("finds nothing between a document and itself, or its copy", () => {
    for (const screen of screens) {
      for (const twin of [screen, structuredClone(screen)]) {
        expect(changesBetween(screen, twin)).toEqual({ renames: [], changes: [], orders: [] });
      }
    }
  });

  it("finds what was changed between two visits, by identity", () => {
    const { changes, renames, orders } = changesBetween(asLeft, asFound);
    expect(renames).toEqual([]);
    expect(orders).toEqual([]);
    expect(changes).toContainEqual({
      kind: "changed",
      path: ["outputs", "left-hf", "highPass", "frequencyHz"],
      field: "outputs[].highPass.frequencyHz",
      before: 1600,
      after: 1000,
    });
    expect(changes).toContainEqual({
      kind: "changed",
      path: ["equalizations", "feature", "channels", "C", "graphic", "gainsDb", "17"],
      field: "equalizations[].channels[].graphic.gainsDb[]",
      before: -1.5,
      after: 0.5,
    });
    expect(changes.every(({ kind }) => kind === "changed")).toBe(true);
  });

  it("finds the same as the plainest walk, on every pair of screens and on random edits", () => {
    const agrees = (before: Configuration, after: Configuration): void => {
      const { changes } = changesBetween(before, after, { identity: "literal" });
      expectEqual(changes.map(lineOf).sort(), walk(asJson(before), asJson(after)).sort());
    };
    for (const [before, after] of pairs) agrees(before, after);
    fc.assert(
      fc.property(edited, ([before, after]) => agrees(before, after)),
      { numRuns: runs(40) },
    );
  });

  it("tells a value of another type, and a list of another length, as one change", () => {
    const after = draftOf(asLeft);
    Object.assign(after.unit, { label: 5 });
    const graphic = after.equalizations[0]!.channels[0]!.graphic as { gainsDb: readonly number[] };
    graphic.gainsDb = graphic.gainsDb.slice(1);
    const changes = changesBetween(asLeft, after).changes;
    expect(changes.map(({ kind, field }) => [kind, field])).toEqual([
      ["changed", "unit.label"],
      ["changed", "equalizations[].channels[].graphic.gainsDb"],
    ]);
    expect(changes[0]).toMatchObject({ before: asLeft.unit.label, after: 5 });
    expect(changes[1]).toMatchObject({ after: graphic.gainsDb });
  });

  it("counts an item that moved in its list as no change", () => {
    const after = draftOf(asLeft);
    (after.presets as unknown as unknown[]).reverse();
    const { changes, orders } = changesBetween(asLeft, after);
    expect(changes).toEqual([]);
    expect(orders.map(({ field }) => field)).toEqual(["presets"]);
  });

  it("gives the second document when applied, and the first when reverted", () => {
    const holds = (before: Configuration, after: Configuration): void => {
      for (const identity of ["found", "literal"] as const) {
        const set = changesBetween(before, after, { identity });
        expectEqual(applyChanges(before, set), after);
        expectEqual(revertChanges(after, set), before);
      }
    };
    for (const [before, after] of pairs) holds(before, after);
    fc.assert(
      fc.property(edited, ([before, after]) => holds(before, after)),
      { numRuns: runs(40) },
    );
  });

  it("survives being written as JSON", () => {
    const [before, after] = [screens[0]!, screens[2]!];
    const set = JSON.parse(JSON.stringify(changesBetween(before, after)));
    expect(applyChanges(before, set)).toEqual(after);
  });

  it("leaves its arguments as they are", () => {
    const [before, after] = [structuredClone(asLeft), structuredClone(asFound)];
    const set = changesBetween(before, after);
    applyChanges(before, set);
    revertChanges(after, set);
    expect([before, after]).toEqual([asLeft, asFound]);
  });

  it("refuses documents whose items cannot be told apart", () => {
    const twice = draftOf(asLeft) as unknown as { outputs: { id: string; label: string }[] };
    twice.outputs[1]!.id = twice.outputs[0]!.id;
    const unnamed = draftOf(asLeft) as unknown as { outputs: { id?: string }[] };
    delete unnamed.outputs[0]!.id;
    const harmful = draftOf(asLeft) as unknown as { outputs: { id: string }[] };
    harmful.outputs[0]!.id = "__proto__";
    const unknown = JSON.parse(
      JSON.stringify(asLeft).replace('"screen":{', '"screen":{"__proto__":{"polluted":1},'),
    );
    for (const [document, code] of [
      [twice, "changes.unclear-identity"],
      [unnamed, "changes.unclear-identity"],
      [harmful, "changes.unclear-identity"],
      [unknown, "document.invalid"],
    ] as const) {
      for (const [a, b] of [
        [asLeft, document],
        [document, asLeft],
      ]) {
        expect(() => changesBetween(a as Configuration, b as unknown as Configuration)).toThrow(
          expect.objectContaining<Partial<BoothkeepError>>({ code }),
        );
      }
    }
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });

  it("refuses to apply changes to a document that they do not fit", () => {
    const set = changesBetween(asLeft, asFound);
    expect(() => applyChanges(asFound, set)).toThrow(expect.objectContaining({ code: "changes.do-not-fit" }));
    const forged = {
      ...set,
      changes: [{ kind: "added" as const, path: ["__proto__", "polluted"], field: "", after: 1 }],
    };
    expect(() => applyChanges(asLeft, forged)).toThrow(
      expect.objectContaining({ code: "changes.do-not-fit" }),
    );
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });
});

describe("places", () => {
  it("finds the value and the JSON Pointer of a place by identity", () => {
    const path = ["outputs", "left-hf", "highPass", "frequencyHz"];
    const index = asLeft.outputs.findIndex(({ id }) => id === "left-hf");
    expect(valueAt(asLeft, path)).toBe(1600);
    expect(pointerTo(asLeft, path)).toBe(`/outputs/${index}/highPass/frequencyHz`);
    expect(valueAt(asLeft, ["outputs", "nowhere", "gainDb"])).toBeUndefined();
    expect(pointerTo(asLeft, ["outputs", "nowhere", "gainDb"])).toBe("/outputs");
  });

  it("agrees with what a change says of both documents", () => {
    fc.assert(
      fc.property(edited, ([before, after]) => {
        for (const change of changesBetween(before, after, { identity: "literal" }).changes) {
          expect(valueAt(before, change.path)).toEqual(change.kind === "added" ? undefined : change.before);
          expect(valueAt(after, change.path)).toEqual(change.kind === "removed" ? undefined : change.after);
        }
      }),
      { numRuns: runs(40) },
    );
  });
});
