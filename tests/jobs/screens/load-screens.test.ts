import { describe, expect, it } from "vitest";
import house from "../../../samples/standards/house-71-1.1.0.json" with { type: "json" };
import { compileStandard } from "../../../src/fleet/standard/index.ts";
import {
  auditLogbook,
  censusOfLogbook,
  driftInLogbook,
  loadScreens,
  rowsToKeep,
  screensToAudit,
} from "../../../src/jobs/index.ts";
import { record } from "../../../src/logbook/entries/index.ts";
import type { Standard } from "../../../src/model/index.ts";
import { asLeft, changed, profile } from "../../logbook/restore/documents.ts";
import { logbookOf } from "../logbook-of-screens.ts";

const screens = ["one", "two", "three"].map((screenId) =>
  changed(asLeft, ({ screen }) => {
    screen.screenId = screenId;
  }),
);
const folders = ["one", "three", "two"].map((screenId) => `${asLeft.screen.siteId}/${screenId}`);
const standard = house as unknown as Standard;

describe("jobs over the screens of a logbook", () => {
  it("tell each screen when it is done", async () => {
    const logbook = logbookOf(screens);
    const told: string[] = [];
    const onDone = (name: string) => void told.push(name);
    const part = await driftInLogbook(logbook, {
      standard: compileStandard(standard),
      profileOf: () => profile,
      onDone,
    });
    expect(part.screens).toBe(3);
    expect(told).toEqual(folders);
    expect(censusOfLogbook(logbook, { screens: {}, folders: folders.slice(1), onDone }).screens).toBe(2);
    expect(told.slice(3)).toEqual(folders.slice(1));
  });

  it("end before the next screen when they are asked to, with the reason", () => {
    const ending = new AbortController();
    const loaded = loadScreens(logbookOf(screens), { signal: ending.signal });
    expect(loaded.next().value).toMatchObject({ kind: "screen", screen: { name: folders[0] } });
    ending.abort(new Error("enough"));
    expect(() => loaded.next()).toThrow("enough");
  });

  it("audit anew only what changed since the audit before", () => {
    const logbook = logbookOf(screens);
    const ground = { standards: [standard], profiles: [profile], programVersion: "test" };
    const rows = [
      ...auditLogbook(logbook, screensToAudit(logbook, ground), { ...ground, logbookName: "book" }),
    ];
    expect(rows.map(({ screenId }) => screenId)).toEqual(["one", "three", "two"]);
    record(logbook, {
      configuration: screens[1]! as unknown as Record<string, unknown>,
      reason: "routine",
      recordedAt: "2026-05-02T23:40:00+01:00",
      recordedBy: "Service team",
    });
    const { kept, open } = rowsToKeep(screensToAudit(logbook, ground), rows, "book");
    expect(kept.map(({ screenId }) => screenId)).toEqual(["one", "three"]);
    expect(open.map(({ folder }) => folder)).toEqual([folders[2]]);
    const other = { ...ground, programVersion: "next" };
    expect(rowsToKeep(screensToAudit(logbook, other), rows, "book").kept).toEqual([]);
  });
});
