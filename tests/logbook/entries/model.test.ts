import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bindLogbook,
  createLogbook,
  healLogbook,
  history,
  type KeptDocument,
  type Logbook,
  memoryStore,
  mergeLogbook,
  readEntry,
  record,
  verifyLogbook,
  withdraw,
} from "../../../src/logbook/entries/index.ts";
import { runs } from "../../runs.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";

/** A logbook as simple as can be: what was said, in a map. */
interface Model {
  readonly entries: Map<string, ModelEntry>;
  readonly withdrawn: Set<string>;
}

interface ModelEntry {
  readonly screen: string;
  readonly document: KeptDocument;
  readonly number: number;
  readonly previous: readonly string[];
}

interface Side {
  readonly logbook: Logbook;
  readonly model: Model;
}

const operation = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      kind: fc.constant("record" as const),
      side: fc.nat(1),
      screen: fc.nat(2),
      value: fc.nat(5),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant("withdraw" as const), side: fc.nat(1), nth: fc.nat(20) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant("bind" as const), side: fc.nat(1), site: fc.nat(2) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant("merge" as const), side: fc.nat(1), site: fc.nat(2) }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("heal" as const), side: fc.nat(1) }) },
);
type Operation = typeof operation extends fc.Arbitrary<infer T> ? T : never;

const SCREENS = [
  { siteId: "quay", screenId: "screen-1" },
  { siteId: "quay", screenId: "Screen 2" },
  { siteId: "Pier", screenId: "screen-1" },
] as const;
const SITES = ["quay", "Pier", undefined] as const;
const nameOf = ({ siteId, screenId }: { readonly siteId: string; readonly screenId: string }) =>
  `${siteId}/${screenId}`;

function documentOf(screen: (typeof SCREENS)[number], value: number): KeptDocument {
  // Values 0 to 3 differ in one place, 4 and 5 have another structure.
  const outputs = value < 4 ? [{ id: "a", gainDb: value }] : [{ id: "b" }, { id: "a", gainDb: value }];
  return configuration({ outputs, gainsDb: Array.from({ length: 60 }, (_, index) => index) }, screen);
}

function newSide(): Side {
  return {
    logbook: createLogbook(memoryStore(), NEW_LOGBOOK),
    model: { entries: new Map(), withdrawn: new Set() },
  };
}

function latestOf(model: Model, screen: string): readonly string[] {
  const own = [...model.entries].filter(([, entry]) => entry.screen === screen);
  const followed = new Set(own.flatMap(([, entry]) => entry.previous));
  return own.map(([id]) => id).filter((id) => !followed.has(id));
}

function apply(sides: readonly Side[], operation: Operation, minute: number): void {
  const { logbook, model } = sides[operation.side]!;
  switch (operation.kind) {
    case "record": {
      const screen = SCREENS[operation.screen]!;
      const document = documentOf(screen, operation.value);
      const { id, findings } = record(logbook, { configuration: document, ...circumstances(minute) });
      expect(findings).toEqual([]);
      const previous = [...latestOf(model, nameOf(screen))].sort();
      const number = 1 + Math.max(0, ...previous.map((before) => model.entries.get(before)!.number));
      model.entries.set(id, { screen: nameOf(screen), document, number, previous });
      break;
    }
    case "withdraw": {
      const id = [...model.entries.keys()][operation.nth];
      if (id === undefined) break;
      withdraw(
        logbook,
        { id },
        { reason: "Wrong.", recordedAt: "2026-03-03T08:00:00Z", recordedBy: `${minute}` },
      );
      model.withdrawn.add(id);
      break;
    }
    case "bind": {
      const siteId = SITES[operation.site];
      bindLogbook(logbook, siteId === undefined ? {} : { siteId });
      break;
    }
    case "merge": {
      const other = sides[1 - operation.side]!;
      const siteId = SITES[operation.site];
      mergeLogbook(logbook, other.logbook, siteId === undefined ? {} : { only: { siteId } });
      for (const [id, entry] of other.model.entries) {
        if (siteId !== undefined && !entry.screen.startsWith(`${siteId}/`)) continue;
        model.entries.set(id, entry);
        if (other.model.withdrawn.has(id)) model.withdrawn.add(id);
      }
      break;
    }
    case "heal":
      healLogbook(logbook, undefined);
      break;
  }
}

function expectSame({ logbook, model }: Side): void {
  const { items, findings } = history(logbook);
  expect(findings).toEqual([]);
  expect(items.map((item) => item.id).sort()).toEqual([...model.entries.keys()].sort());
  for (const { id, entry, withdrawals, isLatest } of items) {
    const wanted = model.entries.get(id)!;
    expect({ number: entry.number, previous: entry.previous }).toEqual({
      number: wanted.number,
      previous: wanted.previous,
    });
    expect(isLatest).toBe(latestOf(model, wanted.screen).includes(id));
    expect(withdrawals.length > 0).toBe(model.withdrawn.has(id));
    expect(readEntry(logbook, { id, siteId: entry.siteId, screenId: entry.screenId }).configuration).toEqual(
      wanted.document,
    );
  }
  const report = verifyLogbook(logbook, { depth: "contents" });
  expect(report.findings.filter((finding) => finding.code !== "logbook/recorded-apart")).toEqual([]);
  expect(report.entries.trusted).toHaveLength(model.entries.size);
}

describe("a logbook", () => {
  it("says the same as a simple model after any sequence of operations", () => {
    fc.assert(
      fc.property(fc.array(operation, { minLength: 1, maxLength: 20 }), (operations) => {
        const sides = [newSide(), newSide()];
        for (const [minute, item] of operations.entries()) apply(sides, item, minute);
        for (const side of sides) expectSame(side);
      }),
      { numRuns: runs(100, 10_000) },
    );
  }, 900_000);
});
