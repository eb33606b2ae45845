import { describe, expect, it } from "vitest";
import { canonicalHash } from "../../../src/base/canonical/index.ts";
import {
  createLogbook,
  history,
  memoryStore,
  openLogbook,
  readEntry,
  record,
} from "../../../src/logbook/entries/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";

describe("record, history, readEntry", () => {
  it("gives back what was recorded", () => {
    const store = memoryStore();
    const logbook = createLogbook(store, NEW_LOGBOOK);
    const first = record(logbook, { configuration: configuration(), ...circumstances(0) });
    const changed = configuration({ outputs: [{ id: "left-lf", gainDb: 1 }] });
    const second = record(logbook, { configuration: changed, ...circumstances(1), notes: "Low way up." });

    expect(first.id).toBe(canonicalHash(first.entry));
    expect(second.entry).toMatchObject({ number: 2, previous: [first.id], notes: "Low way up." });
    const { items, findings } = history(openLogbook(store));
    expect(items.map((item) => [item.id, item.isLatest])).toEqual([
      [first.id, false],
      [second.id, true],
    ]);
    expect(findings).toEqual([]);
    expect(readEntry(logbook, { id: first.id.slice(0, 8) }).configuration).toEqual(configuration());
    expect(readEntry(logbook, { siteId: "harbour-lights", screenId: "screen-3" })).toMatchObject({
      id: second.id,
      configuration: changed,
    });
  });
});
