import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonicalText } from "../../../src/base/canonical/index.ts";
import {
  createLogbook,
  type KeptDocument,
  logbookScreens,
  memoryStore,
  record,
} from "../../../src/logbook/entries/index.ts";
import { pieces } from "../../../src/logbook/medium/edits.ts";
import { SharedDocuments } from "../../../src/logbook/medium/shared-documents.ts";

const resolved = (document: unknown) => {
  const text = canonicalText(document as never);
  return { text, pieces: pieces(text), steps: 0 };
};

describe("documents of one screen's history", () => {
  it("are those of their texts, whatever the documents and their order", () => {
    const scalar = fc.oneof(fc.integer({ min: 0, max: 3 }), fc.constantFrom("a", '"1":', "{", null, true));
    const { document } = fc.letrec<{ value: unknown; document: unknown }>((tie) => ({
      value: fc.oneof(
        { depthSize: "small" },
        scalar,
        fc.array(tie("value"), { maxLength: 3 }),
        tie("document"),
      ),
      document: fc.dictionary(fc.constantFrom("a", "b", "10", "9", "__proto__", "c"), tie("value"), {
        maxKeys: 4,
      }),
    }));
    fc.assert(
      fc.property(fc.array(document, { minLength: 1, maxLength: 6 }), (documents) => {
        const shared = new SharedDocuments();
        for (const one of documents.map(resolved)) {
          expect(shared.parse(one)).toStrictEqual(JSON.parse(one.text));
        }
      }),
    );
  });

  it("are those of their texts when only values change", () => {
    const visit = fc.record({
      a: fc.nat(2),
      b: fc.tuple(fc.nat(2), fc.boolean()),
      10: fc.nat(1),
      9: fc.nat(1),
    });
    const other = fc.record({
      a: fc.nat(2),
      b: fc.record({ c: fc.tuple(fc.nat(1), fc.nat(1)), d: fc.nat(2) }),
    });
    for (const kind of [visit, other]) {
      fc.assert(
        fc.property(
          fc.array<unknown>(kind as fc.Arbitrary<unknown>, { minLength: 2, maxLength: 8 }),
          (documents) => {
            const shared = new SharedDocuments();
            for (const one of documents.map(resolved)) {
              expect(shared.parse(one)).toStrictEqual(JSON.parse(one.text));
            }
          },
        ),
      );
    }
  });

  it("share what did not change, and leave what was given before as it was", () => {
    const shared = new SharedDocuments();
    const first = shared.parse(resolved({ a: { b: [1, 2] }, c: { d: 3 }, e: [] }));
    const second = shared.parse(resolved({ a: { b: [1, 2] }, c: { d: 4 }, e: [] }));
    expect(second?.a).toBe(first?.a);
    expect(second).toEqual({ a: { b: [1, 2] }, c: { d: 4 }, e: [] });
    expect(first).toEqual({ a: { b: [1, 2] }, c: { d: 3 }, e: [] });
  });
});

describe("a screen of a logbook, read for its history", () => {
  const visitsOf = (screenId: string): readonly KeptDocument[] =>
    Array.from({ length: 30 }, (_, visit) => ({
      kind: "boothkeep.configuration",
      screen: { siteId: "hall", screenId },
      unit: { profileId: "unit-a", serial: `${screenId}-1` },
      values: Array.from({ length: 60 }, (_none, index) => (index + visit) % 7),
      ...(visit > 20 && { notes: "after the rebuild" }),
    }));

  it("gives every configuration as it was recorded, from the last to the first", () => {
    const logbook = createLogbook(memoryStore(), {
      id: "018f3f2e-0000-7000-8000-000000000001",
      startedAt: "2026-01-01T00:00:00Z",
    });
    for (const [visit, configuration] of ["screen-1", "screen-2"].flatMap(visitsOf).entries()) {
      const recordedAt = `2026-01-01T00:00:${String(visit).padStart(2, "0")}Z`;
      record(logbook, { configuration, reason: "routine", recordedAt, recordedBy: "Service team" });
    }
    const read = [...logbookScreens(logbook, { folders: ["hall/screen-2", "hall/screen-1"] })].map(
      (screen) => {
        const { items, configuration } = screen.read();
        return items.toReversed().map(configuration).reverse();
      },
    );
    expect(read).toEqual([visitsOf("screen-2"), visitsOf("screen-1")]);
  });
});
