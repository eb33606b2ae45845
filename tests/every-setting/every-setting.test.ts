import { describe, expect, it } from "vitest";
import { type Configuration, FIELDS } from "../../src/model/index.ts";
import { changedAt, type Leaf, leavesOf, SUBJECTS, type Subject, schemaShapes } from "./complete.ts";
import { NOT_COVERED } from "./not-covered.ts";
import { type Observer, observerOf, WHERE_TO_GO, type Witness } from "./witnesses.ts";

const WITNESSES = Object.keys(WHERE_TO_GO) as readonly Witness[];

/** The fields whose change matters: what is heard, what protects, where sound goes, how the booth works. */
const MATTERS = new Map(
  FIELDS.filter(({ kind }) => kind !== "record").map(({ path, kind }) => [path, kind] as const),
);

interface Case {
  readonly subject: Subject;
  readonly leaf: Leaf;
  readonly changed: Configuration;
}

/** One changed leaf of each shape that matters: again for each sort of filter, trigger, action and feed. */
function cases(): ReadonlyMap<string, Case> {
  const found = new Map<string, Case>();
  for (const subject of SUBJECTS) {
    for (const leaf of leavesOf(subject.configuration)) {
      if (!MATTERS.has(leaf.path) || found.has(leaf.shape)) continue;
      const changed = changedAt(subject, leaf);
      if (changed !== undefined) found.set(leaf.shape, { subject, leaf, changed });
    }
  }
  return found;
}

const CASES = cases();
const observers = new Map<Subject, Observer>(SUBJECTS.map((subject) => [subject, observerOf(subject)]));
const seen = new Map<Case, readonly Witness[]>();

function witnessesOf(one: Case): readonly Witness[] {
  const { sees } = observers.get(one.subject)!;
  const found = seen.get(one) ?? WITNESSES.filter((witness) => sees[witness](one.changed));
  seen.set(one, found);
  return found;
}

const isExcused = (path: string, witness: Witness) =>
  NOT_COVERED.some(({ fields, by }) => fields.test(path) && by.includes(witness));

describe("the sample with everything", () => {
  it("has every leaf that the schema allows, in every sort of filter, trigger, action and feed", () => {
    const there = new Set(
      SUBJECTS.flatMap(({ configuration }) => leavesOf(configuration).map(({ shape }) => shape)),
    );
    const missing = schemaShapes().filter((shape) => !there.has(shape));
    expect(missing, "add them to samples/generate/complete/screen.ts and run 'npm run samples'").toEqual([]);
  });

  it("is carried onto a unit of its own model as it is", () => {
    for (const [{ configuration }, { plan }] of observers) {
      expect(plan.configuration).toEqual(configuration);
      expect(plan.counts.kept).toBe(plan.values);
    }
  });
});

describe("a changed value", () => {
  it.each([...CASES])("%s shows wherever it has to", (_, one) => {
    const { path } = one.leaf;
    const found = witnessesOf(one);
    const unseen = WITNESSES.filter((witness) => !found.includes(witness) && !isExcused(path, witness));
    expect(
      unseen.map(
        (witness) =>
          `${path} (${MATTERS.get(path)}): a changed value does not show in the ${witness}. Go to ${WHERE_TO_GO[witness]}; ` +
          "if it really need not show there, say why in tests/every-setting/not-covered.ts.",
      ),
    ).toEqual([]);
  });

  it("is tried for every field that matters", () => {
    const tried = new Set([...CASES.values()].map(({ leaf }) => leaf.path));
    expect([...MATTERS.keys()].filter((path) => !tried.has(path))).toEqual([]);
  });
});

describe("the list of what does not show", () => {
  it("gives a reason in words for fields that there are", () => {
    for (const { fields, reason, by } of NOT_COVERED) {
      expect(
        [...MATTERS.keys()].some((path) => fields.test(path)),
        String(fields),
      ).toBe(true);
      expect(reason.split(" ").length, String(fields)).toBeGreaterThan(4);
      expect(by.length).toBeGreaterThan(0);
    }
  });

  it("excuses nothing that shows all the same", () => {
    for (const { fields, by } of NOT_COVERED) {
      const own = [...CASES.values()].filter(({ leaf }) => fields.test(leaf.path));
      for (const witness of by) {
        const hidden = new Set(
          own.filter((one) => !witnessesOf(one).includes(witness)).map(({ leaf }) => leaf.path),
        );
        const needless = own.map(({ leaf }) => leaf.path).filter((path) => !hidden.has(path));
        expect([...new Set(needless)], `${String(fields)} by the ${witness}`).toEqual([]);
      }
    }
  });
});
