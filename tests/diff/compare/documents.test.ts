import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Validator } from "@cfworker/json-schema";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyChanges, type ChangeSet } from "../../../src/diff/changes/index.ts";
import { compareConfigurations, compareVisit } from "../../../src/diff/compare/index.ts";
import { validateComparison } from "../../../src/model/generated/validators.js";
import type { Comparison } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { expectEqual } from "../changes/expect-equal.ts";
import { edit, withEdits } from "../changes/random-edits.ts";
import { asFound, asLeft, screens, small } from "../changes/samples.ts";
import { edited, item } from "./edited.ts";

const schema = JSON.parse(
  readFileSync(join(import.meta.dirname, "..", "..", "..", "schemas", "comparison.schema.json"), "utf8"),
);
const independent = new Validator(schema, "2020-12", false);

/** A comparison as a script gets it fits the published schema, by two validators. */
function expectFits(comparison: Comparison): void {
  const document = JSON.parse(JSON.stringify(comparison));
  validateComparison(document);
  expect(validateComparison.errors ?? []).toEqual([]);
  expect(independent.validate(document).errors).toEqual([]);
}

describe("a comparison as a document", () => {
  it("fits its schema", () => {
    expectFits(compareConfigurations(asLeft, asFound, { curves: true, before: { sha256: "0".repeat(64) } }));
    expectFits(compareConfigurations(screens[2]!, screens[3]!));
    expectFits(compareVisit({ asLeft, asFound, standard: screens[2]! }));
    const edits = fc.array(edit, { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(edits, (list) =>
        expectFits(compareConfigurations(small, withEdits(small, list), { curves: true })),
      ),
      { numRuns: runs(25) },
    );
  });

  it("carries changes that give the second document", () => {
    for (const after of [asFound, ...screens]) {
      const document = JSON.parse(JSON.stringify(compareConfigurations(asLeft, after))) as Comparison;
      expectEqual(applyChanges(asLeft, document as unknown as ChangeSet), after);
    }
  });

  it("gives curves only when asked for, with as many levels as frequencies", () => {
    expect(compareConfigurations(asLeft, asFound).curves).toEqual([]);
    const { curves, findings } = compareConfigurations(asLeft, asFound, { curves: true });
    expect(curves.map(({ subject }) => subject).sort()).toEqual(["equalizer", "loudspeaker"]);
    for (const { frequenciesHz, beforeDb, afterDb, ways = [] } of curves) {
      for (const levels of [beforeDb, afterDb, ...ways.flatMap((way) => [way.beforeDb, way.afterDb])]) {
        expect(levels).toHaveLength(frequenciesHz.length);
      }
    }
    expect(findings.flatMap((finding) => finding.curves).sort()).toEqual([0, 1]);
  });

  it("is the same every time, byte for byte", () => {
    const text = () => JSON.stringify(compareConfigurations(asLeft, screens[2]!, { curves: true }));
    expect(text()).toBe(text());
  });
});

describe("compareVisit", () => {
  const standard = edited((draft) => {
    item(draft.presets, "trailers-51").levelDb = -3;
    item(draft.presets, "event-51").delayMs = 0;
    // What the room decides is no business of a house standard.
    item(draft.channels, "L").levelDb = 3;
    item(draft.outputs, "left-hf").highPass.frequencyHz = 500;
  });

  it("tells what changed since, what is off the standard, and which of it changed since", () => {
    const { findings, offStandard } = compareVisit({ asLeft, asFound, standard });
    expect(findings.map(({ code }) => code)).toEqual(
      compareConfigurations(asLeft, asFound).findings.map(({ code }) => code),
    );
    const drift = offStandard!.comparison.findings.map(({ place, code }, index) => [
      code,
      place.words,
      offStandard!.changedSince[index],
    ]);
    expect(drift).toEqual([
      ["delay/against-picture", "Preset Live event 5.1", true],
      ["level/changed", "Preset Trailers 5.1", false],
      ["record/name", "Preset Live event 5.1", true],
    ]);
  });

  it("finds nothing off a standard that the screen follows", () => {
    expect(
      compareVisit({ asLeft, asFound: asLeft, standard: asLeft }).offStandard?.comparison.findings,
    ).toEqual([]);
  });
});
