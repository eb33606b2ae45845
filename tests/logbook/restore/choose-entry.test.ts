import { describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import type { HistoryItem, ScreenNote } from "../../../src/logbook/entries/index.ts";
import { chooseEntry } from "../../../src/logbook/restore/index.ts";
import type { Withdrawal } from "../../../src/model/index.ts";
import { plainStanding } from "../standing/support.ts";
import { historyItem } from "./documents.ts";

const readable = ({ id }: HistoryItem) => `read ${id.slice(0, 2)}`;

function unreadable(...numbers: readonly number[]) {
  return (item: HistoryItem) => {
    if (!numbers.includes(item.entry.number)) return readable(item);
    throw new BoothkeepError("logbook.lost-configuration", "The configuration is lost.", {
      next: "Heal it.",
    });
  };
}

function withdrawal(reason: string): Withdrawal {
  return {
    kind: "boothkeep.withdrawal",
    schemaVersion: "1.0.0",
    siteId: "site",
    screenId: "screen-1",
    entry: "0".repeat(64),
    reason,
    recordedAt: "2026-05-01T10:00:00+01:00",
    recordedBy: "Service team",
  };
}

const codes = (chosen: { readonly findings: readonly { readonly code: string }[] }) =>
  chosen.findings.map(({ code }) => code);

function thrown(run: () => unknown): BoothkeepError {
  try {
    run();
  } catch (error) {
    if (error instanceof BoothkeepError) return error;
    throw error;
  }
  throw new Error("nothing was thrown");
}

describe("without an entry named", () => {
  it("takes the last as-left one and gives what was read", () => {
    const items = [historyItem(1), historyItem(2), historyItem(3, { isLatest: true })];
    const chosen = chooseEntry(items, { read: readable });
    expect(chosen.item.entry.number).toBe(3);
    expect(chosen.read).toBe("read 03");
    expect(chosen.findings).toEqual([]);
  });

  it("goes by the order of the history, not by dates", () => {
    const early = historyItem(3, { isLatest: true });
    const items = [
      historyItem(1),
      { ...early, entry: { ...early.entry, recordedAt: "1999-01-01T00:00:00Z" } },
    ];
    expect(chooseEntry(items, { read: readable }).item.entry.number).toBe(3);
  });

  it("takes no other reason, and tells of what is newer", () => {
    const items = [
      historyItem(1),
      historyItem(2),
      historyItem(3, { reason: "as-found" }),
      historyItem(4, { reason: "routine", isLatest: true }),
    ];
    const chosen = chooseEntry(items, { read: readable });
    expect(chosen.item.entry.number).toBe(2);
    expect(codes(chosen)).toEqual(["restore/newer-entry"]);
    expect(chosen.findings[0]!.words).toMatch(/^2 newer entries exist: 3 \(as found, 2026-03-01, /);
  });

  it("says nothing of a newer entry that holds the same", () => {
    const [first, second] = [historyItem(1), historyItem(2, { reason: "routine" })];
    const same = { ...second, entry: { ...second.entry, configuration: first.entry.configuration } };
    expect(chooseEntry([first, same], { read: readable }).findings).toEqual([]);
  });

  it("says which newer one was withdrawn, by whom and why", () => {
    const items = [
      historyItem(1),
      historyItem(2),
      historyItem(3, { withdrawals: [withdrawal("Wrong screen.")], isLatest: true }),
    ];
    const chosen = chooseEntry(items, { read: readable });
    expect(chosen.item.entry.number).toBe(2);
    expect(codes(chosen)).toEqual(["restore/entry-passed-over"]);
    expect(chosen.findings[0]!.words).toMatch(
      /entry 3 \(as left, 2026-03-01, 03030303\), was passed over\. It was withdrawn on 2026-05-01 by Service team: Wrong screen\./,
    );
  });

  it("passes over what was never signed, with a word", () => {
    const items = [historyItem(1), historyItem(2), historyItem(3, { isLatest: true })];
    const chosen = chooseEntry(items, {
      read: (item) => {
        if (item.entry.number < 3) return readable(item);
        throw new BoothkeepError("logbook.unsigned", "Entry 3 is not signed.", { next: "Sign it." });
      },
    });
    expect(chosen.item.entry.number).toBe(2);
    expect(chosen.findings[0]).toMatchObject({
      code: "restore/entry-passed-over",
      severity: "warning",
      remedy: "Sign it.",
      numbers: { entry: 3 },
    });
  });

  it("does not go back behind what is damaged or missing unless the older one is named", () => {
    const items = [historyItem(1), historyItem(2), historyItem(3, { isLatest: true })];
    const stopped = thrown(() => chooseEntry(items, { read: unreadable(3) }));
    expect(stopped).toMatchObject({ code: "restore.newer-unseen", exitCode: 3 });
    expect(stopped.message).toContain("Entry 3 (as left, 2026-03-01, 03030303) cannot be read");
    expect(stopped.next).toContain("--entry 020202020202");
    expect(chooseEntry(items, { entryId: "0202", read: unreadable(3) }).item.entry.number).toBe(2);

    const note = (...ids: readonly string[]): ScreenNote => ({
      siteId: "site",
      screenId: "screen-1",
      unseen: { records: ids.map((id) => ({ id, isDamaged: false })), boundFiles: [] },
      unsettled: undefined,
    });
    const missing = thrown(() => chooseEntry(items, { read: readable, note: note("ab".repeat(32)) }));
    expect(missing.code).toBe("restore.newer-unseen");
    expect(missing.message).toContain("1 record of site / screen-1 is not here");
    // An entry that the chosen one follows is older.
    const rest = items.slice(1);
    expect(chooseEntry(rest, { read: readable, note: note(items[0]!.id) }).item.entry.number).toBe(3);
  });

  it("says first that the unit in the rack is of another model since", () => {
    const other = historyItem(2, { reason: "after-swap", isLatest: true });
    const items = [
      historyItem(1, { standing: plainStanding({ isOfAnotherModel: true }) }),
      { ...other, entry: { ...other.entry, unit: { profileId: "new-model", serial: "N-1" } } },
    ];
    const [first] = chooseEntry(items, { read: readable }).findings;
    expect(first).toMatchObject({ code: "restore/another-model", severity: "error" });
    expect(first!.words).toContain("'new-model'");
    const [named] = chooseEntry(items, { read: readable, isModelNamed: true }).findings;
    expect(named).toMatchObject({ code: "restore/model-named", severity: "warning" });
  });

  it("warns of a screen that was left twice, one not knowing of the other", () => {
    const apart = historyItem(3, { isLatest: true });
    const items = [
      historyItem(1),
      historyItem(2, { isLatest: true }),
      { ...apart, entry: { ...apart.entry, previous: [historyItem(1).id] } },
    ];
    const { findings } = chooseEntry(items, { read: readable });
    expect(findings).toMatchObject([{ code: "restore/recorded-apart", severity: "error" }]);
    expect(findings[0]!.remedy).toContain("'--entry 020202020202' or '--entry 030303030303'");
  });

  it("refuses when none is left, and says what to do", () => {
    const damaged = thrown(() => chooseEntry([historyItem(1), historyItem(2)], { read: unreadable(1, 2) }));
    expect(damaged).toMatchObject({ code: "restore.no-entry", exitCode: 3 });
    expect(damaged.next).toBe("Heal it.");
    expect(damaged.data.passedOver).toHaveLength(2);
    const other = thrown(() => chooseEntry([historyItem(1, { reason: "as-found" })], { read: readable }));
    expect(other.next).toContain("--entry");
    const empty = thrown(() => chooseEntry([], { read: readable }));
    expect(empty.next).toContain("Check the site");
  });

  it("lets defects through", () => {
    const broken = () => {
      throw new TypeError("a defect");
    };
    expect(() => chooseEntry([historyItem(1)], { read: broken })).toThrow(TypeError);
  });
});

describe("with an entry named", () => {
  const items = [
    historyItem(1),
    historyItem(2, { reason: "as-found" }),
    historyItem(3, { withdrawals: [withdrawal("Wrong screen.")] }),
    historyItem(10, { isLatest: true }),
  ];

  it("takes it by its first digits and tells its doubts", () => {
    expect(chooseEntry(items, { entryId: "0101", read: readable }).item.entry.number).toBe(1);
    expect(codes(chooseEntry(items, { entryId: "1010", read: readable }))).toEqual([]);
    expect(codes(chooseEntry(items, { entryId: "0202", read: readable }))).toEqual([
      "restore/not-as-left",
      "restore/newer-entry",
    ]);
    const withdrawn = chooseEntry(items, { entryId: "0303", read: readable });
    expect(withdrawn.findings[0]).toMatchObject({ code: "restore/entry-withdrawn", severity: "error" });
    expect(withdrawn.findings[0]!.words).toContain("Wrong screen.");
  });

  it("refuses an id that fits none or several, and passes on why it cannot be read", () => {
    expect(thrown(() => chooseEntry(items, { entryId: "ffff", read: readable })).code).toBe("usage.wrong");
    const several = thrown(() => chooseEntry(items, { entryId: "0", read: readable }));
    expect(several.next).toContain("0101010101010101");
    expect(thrown(() => chooseEntry(items, { entryId: "0101", read: unreadable(1) })).code).toBe(
      "logbook.lost-configuration",
    );
  });
});
