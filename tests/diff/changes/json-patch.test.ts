import fc from "fast-check";
import fastJsonPatch, { type Operation } from "fast-json-patch";
import { describe, expect, it } from "vitest";
import { jsonPatch } from "../../../src/diff/changes/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { expectEqual } from "./expect-equal.ts";
import { edit, withEdits } from "./random-edits.ts";
import { asFound, asLeft, screens, small } from "./samples.ts";

/** Applied by a library that knows nothing of ours; `validate` makes it refuse what RFC 6902 forbids. */
function applied(document: Configuration, patch: ReturnType<typeof jsonPatch>): unknown {
  const operations = structuredClone(patch) as unknown as Operation[];
  return fastJsonPatch.applyPatch(structuredClone(document), operations, true).newDocument;
}

function holdsBothWays(before: Configuration, after: Configuration): void {
  expectEqual(applied(before, jsonPatch(before, after)), after);
  expectEqual(applied(after, jsonPatch(after, before)), before);
}

describe("jsonPatch", () => {
  it("is empty for equal documents", () => {
    expect(jsonPatch(asLeft, structuredClone(asLeft))).toEqual([]);
  });

  it("gives the second document on every pair of samples, and the first on the way back", () => {
    for (const before of screens) for (const after of [...screens, asFound]) holdsBothWays(before, after);
  });

  it("gives the second document on random edits", () => {
    const edits = fc.array(edit, { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.constant(small), edits, (screen, list) =>
        holdsBothWays(screen, withEdits(screen, list)),
      ),
      { numRuns: runs(30) },
    );
  });

  it("moves a single item by a single operation", () => {
    const after = structuredClone(asLeft) as unknown as { presets: unknown[] };
    after.presets.push(after.presets.shift());
    const last = after.presets.length - 1;
    expect(jsonPatch(asLeft, after as unknown as Configuration)).toEqual([
      { op: "move", from: "/presets/0", path: `/presets/${last}` },
    ]);
  });

  it("replaces single numbers of a graphic equalizer", () => {
    const patch = jsonPatch(asLeft, asFound);
    expect(patch.every(({ op }) => op === "replace")).toBe(true);
    expect(patch.map(({ path }) => path)).toContainEqual(expect.stringMatching(/graphic\/gainsDb\/17$/));
  });
});
