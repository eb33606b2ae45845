import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { assembleAudit, auditScreen } from "../../../src/fleet/audit/index.ts";
import { TwinFinder } from "../../../src/fleet/likeness/index.ts";
import { type Audit, type Configuration, readDocument } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { edited, largeScreen, preset, smallScreen } from "../standard/support.ts";

const DAY = { staleAfterDays: 200, calibrationDays: 730, standards: [] };

/** The row of a screen with one entry. */
function rowOf(configuration: Configuration, screenId: string) {
  const entry = {
    entryId: "0".repeat(64),
    number: 1,
    recordedAt: "2026-11-01T10:00:00Z",
    recordedBy: "Alignment team",
    reason: "as-left",
    sha256: screenId,
    signature: "trusted" as const,
    read: () => configuration,
  };
  const at = {
    logbook: "logbook",
    folder: `mill/${screenId}`,
    basis: "0".repeat(64),
    siteId: "mill",
    screenId,
  };
  return auditScreen(
    { ...at, entries: [entry], damage: { findings: [] } },
    { profileOf: () => undefined, standards: [], needsSignature: false },
  );
}

function twinsOf({ screens }: Audit) {
  return new Map(
    screens.map(({ screenId, checks }) => [screenId, checks.find(({ check }) => check === "twins")!]),
  );
}

/** Audits these screens. */
function audited(configurations: readonly Configuration[]) {
  const rows = configurations.map((configuration, index) => rowOf(configuration, `screen-${index + 1}`));
  return assembleAudit(rows, { ...DAY, auditedAt: "2026-11-25T08:00:00Z" });
}

const times = (count: number, base: Configuration) => Array.from({ length: count }, () => base);

describe("twins in an audit", () => {
  it("names the odd one out and the places, among screens of one format, drive and unit", () => {
    const odd = edited(largeScreen, (draft) => {
      preset(draft, "music").levelDb -= 2;
      draft.operation.paging.programDuckDb = 3;
      draft.outputs[0].gainDb -= 1;
    });
    const twins = twinsOf(audited([...times(5, largeScreen), odd, ...times(2, smallScreen)]));
    expect(twins.get("screen-1")).toMatchObject({ state: "good", words: "As most of its 5 twins are." });
    expect(twins.get("screen-6")).toMatchObject({
      state: "advice",
      count: 2,
      words:
        "Other than its 5 twins in 2 places: presets/music, preset level; operation/paging, lowering of the program while paging.",
    });
    expect(twins.get("screen-7")).toMatchObject({ state: "none" });
  });

  it("is told of rows that are taken over, whatever became of the others; the audit fits its schema", () => {
    const odd = edited(largeScreen, (draft) => {
      preset(draft, "music").levelDb -= 2;
    });
    const first = audited([...times(4, largeScreen), odd]);
    readDocument(JSON.stringify(first), { expect: "boothkeep.audit" });
    expect(first.layouts).toHaveLength(1);
    // All others have changed to what the odd one has; only they are read again.
    const kept = first.screens.filter(({ screenId }) => screenId === "screen-5" || screenId === "screen-1");
    const again = [2, 3, 4].map((number) => rowOf(odd, `screen-${number}`));
    const second = assembleAudit([...kept, ...again], {
      ...DAY,
      auditedAt: "2026-12-25T08:00:00Z",
      layouts: first.layouts!,
    });
    expect(twinsOf(second).get("screen-5")).toMatchObject({ state: "good" });
    expect(twinsOf(second).get("screen-1")).toMatchObject({ state: "advice", count: 1 });
  });

  it("cannot be told of rows from before there was the column", () => {
    const first = audited(times(3, largeScreen));
    const old = first.screens.map(({ house: _house, ...row }) => row);
    const second = assembleAudit(old, { ...DAY, auditedAt: "2026-12-25T08:00:00Z" });
    expect(twinsOf(second).get("screen-1")).toMatchObject({ state: "unknown" });
  });

  it("finds what looking at every value finds", () => {
    const change = fc.record({
      level: fc.constantFrom(0, 0, 0, 0, 0, -1, -2),
      label: fc.constantFrom("A", "A", "A", "A", "B"),
      duck: fc.constantFrom(20, 20, 20, 20, 12),
      isWithoutMusic: fc.constantFrom(false, false, false, false, true),
    });
    fc.assert(
      fc.property(fc.array(change, { minLength: 2, maxLength: 14 }), (changes) => {
        const screens = changes.map(({ level, label, duck, isWithoutMusic }) =>
          edited(largeScreen, (draft) => {
            preset(draft, "event-51").levelDb = level;
            draft.automation[0].label = label;
            draft.operation.paging.programDuckDb = duck;
            if (isWithoutMusic)
              draft.presets = draft.presets.filter(({ id }: { id: string }) => id !== "music");
          }),
        );
        const finder = new TwinFinder();
        for (const [index, screen] of screens.entries()) finder.add(screen, `screen-${index + 1}`);
        const wanted = new Map<string, number>();
        for (const { others } of finder.groups().flatMap(({ odd }) => odd))
          for (const name of others.flatMap(({ screens: names }) => names))
            wanted.set(name, (wanted.get(name) ?? 0) + 1);
        for (const [name, { count = 0 }] of twinsOf(audited(screens)))
          expect(count, name).toBe(wanted.get(name) ?? 0);
      }),
      { numRuns: runs(20) },
    );
  });
});
