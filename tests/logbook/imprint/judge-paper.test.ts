import { describe, expect, it } from "vitest";
import type { HistoryItem } from "../../../src/logbook/entries/index.ts";
import { type Imprint, judgePaper } from "../../../src/logbook/imprint/index.ts";
import type { Entry } from "../../../src/model/index.ts";
import { plainStanding } from "../standing/support.ts";

const hash = (digit: string) => digit.repeat(64);

function item(number: number, settings: string, more: Partial<HistoryItem> = {}): HistoryItem {
  return {
    id: hash(String(number)),
    entry: { siteId: "site", screenId: "screen", number, configuration: hash(settings) } as Entry,
    withdrawals: [],
    signatures: [],
    isLatest: false,
    standing: plainStanding(),
    ...more,
  };
}

const paper = (number: number | undefined, settings: string, id = hash(String(number))): Imprint => ({
  siteId: "site",
  screenId: "screen",
  settingsSha256: hash(settings),
  ...(number === undefined ? {} : { entry: { number, id: id.slice(0, 16) } }),
});

const entries = [item(1, "a"), item(2, "b"), item(3, "a")];

describe("a paper against the entries of its screen", () => {
  it("agrees with its entry, and knows what was recorded since with other settings", () => {
    const first = judgePaper(paper(1, "a"), entries);
    expect([first.verdict, first.item?.entry.number]).toEqual(["agrees", 1]);
    expect(first.laterChanged.map(({ entry }) => entry.number)).toEqual([2]);
    expect(first.same.map(({ entry }) => entry.number)).toEqual([1, 3]);
    expect(judgePaper(paper(3, "a"), entries).laterChanged).toEqual([]);
  });

  it("contradicts an entry that holds other settings, or bears another number", () => {
    expect(judgePaper(paper(2, "a"), entries).verdict).toBe("contradicts");
    expect(judgePaper(paper(7, "b", hash("2")), entries).verdict).toBe("contradicts");
  });

  it("is found by its settings where its entry is not here, or where it names none", () => {
    expect(judgePaper(paper(9, "b"), entries)).toMatchObject({ verdict: "other-entries" });
    const file = judgePaper(paper(undefined, "a"), entries);
    expect([file.verdict, file.item?.entry.number]).toEqual(["agrees", 3]);
  });

  it("is unknown to a logbook without it, and to other screens", () => {
    expect(judgePaper(paper(9, "c"), entries)).toMatchObject({ verdict: "unknown", same: [] });
    expect(judgePaper({ ...paper(1, "a"), screenId: "other" }, entries).verdict).toBe("unknown");
  });

  it("does not count what was withdrawn as recorded since", () => {
    const withdrawn = item(2, "b", { withdrawals: [{} as HistoryItem["withdrawals"][number]] });
    expect(judgePaper(paper(1, "a"), [entries[0]!, withdrawn]).laterChanged).toEqual([]);
  });
});
