import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import {
  type AuditEntry,
  type AuditScreenOptions,
  assembleAudit,
  auditScreen,
  compareAudits,
} from "../../../src/fleet/audit/index.ts";
import {
  type Audit,
  type AuditedScreen,
  type Configuration,
  readDocument,
} from "../../../src/model/index.ts";
import {
  auditComparisonReport,
  auditCsv,
  auditPage,
  auditReport,
  renderText,
} from "../../../src/report/index.ts";
import { outside, requireOutside } from "../../outside.ts";
import { expectGolden } from "../../report/golden.ts";
import { compiledOf, edited, largeProfile, largeScreen, preset } from "../standard/support.ts";

const standard = compiledOf([{ place: "presets/trailers-71/levelDb", hold: "exactly", value: -3.5 }]);
const options: AuditScreenOptions = {
  profileOf: (id) => (id === largeProfile.id ? largeProfile : undefined),
  standards: [standard],
  needsSignature: false,
};

interface Visit {
  readonly on: string;
  readonly reason?: string;
  readonly configuration?: Configuration | undefined;
  readonly signature?: AuditEntry["signature"];
}

/** A row for a screen with these visits. */
function rowOf(
  screenId: string,
  visits: readonly Visit[],
  more: Partial<AuditScreenOptions> = {},
): AuditedScreen {
  const entries = visits.map((visit, index): AuditEntry => {
    const configuration = "configuration" in visit ? visit.configuration : largeScreen;
    return {
      entryId: String(index + 1).padStart(64, "0"),
      recordedBy: index === 0 ? "Alignment team" : "Service team",
      number: index + 1,
      reason: visit.reason ?? "as-left",
      recordedAt: `${visit.on}T10:00:00Z`,
      sha256: JSON.stringify(configuration) ?? "lost",
      signature: visit.signature ?? "trusted",
      read: () => configuration,
    };
  });
  return auditScreen(
    {
      logbook: "logbook",
      folder: `mill/${screenId}`,
      basis: "0".repeat(64),
      siteId: "mill",
      screenId,
      entries,
      damage: { findings: [] },
    },
    { ...options, ...more },
  );
}

/** @param layouts of the audit from which rows are taken over */
function auditOf(
  rows: readonly AuditedScreen[],
  auditedAt = "2026-11-25T08:00:00Z",
  layouts: Audit["layouts"] = [],
): Audit {
  const standards = [{ id: "house", version: "1.0.0", title: "House" }];
  return assembleAudit(rows, { auditedAt, staleAfterDays: 200, calibrationDays: 730, standards, layouts });
}

function stateOf(audit: Audit, screenId: string, check: string) {
  return audit.screens
    .find((screen) => screen.screenId === screenId)
    ?.checks.find((item) => item.check === check);
}

/** The screen with a serial number, addresses and a name of its own. */
function unit(
  index: number,
  edit: (draft: Parameters<Parameters<typeof edited>[1]>[0]) => void = () => {},
): Configuration {
  return edited(largeScreen, (draft) => {
    draft.unit.serial = `G28-${index}`;
    draft.screen.screenName = `Screen ${index}`;
    for (const [at, item] of draft.network.interfaces.entries()) item.address = `10.${at}.0.${index}`;
    edit(draft);
  });
}

const good = unit(1);
const softer = unit(2, (draft) => {
  preset(draft, "trailers-71").levelDb = -6;
});
const brighter = unit(3, (draft) => {
  draft.equalizations[0].channels[0].graphic.gainsDb[10] += 1;
});
const early = unit(4, (draft) => {
  draft.unit.firmware = "0.1.0";
});

const rows = [
  rowOf("screen-1", [{ on: "2026-10-01", configuration: good }]),
  rowOf("screen-2", [
    { on: "2026-05-01", configuration: unit(2) },
    { on: "2026-11-01", configuration: softer, reason: "routine", signature: "none" },
  ]),
  rowOf("screen-3", [
    { on: "2026-03-01", configuration: unit(3) },
    { on: "2026-04-20", configuration: brighter },
  ]),
  rowOf("screen-4", [{ on: "2026-10-01", configuration: early, signature: "broken" }]),
  rowOf("screen-5", [{ on: "2026-10-01", configuration: undefined }]),
  rowOf("screen-6", [{ on: "2026-10-01", configuration: good }]),
  rowOf("screen-7", []),
];
const audit = auditOf(rows);

describe("an audit", () => {
  it.each([
    ["screen-1", "readable", "good"],
    ["screen-1", "recorded", "good"],
    ["screen-1", "standard", "good"],
    ["screen-1", "as-left", "good"],
    ["screen-1", "firmware", "good"],
    ["screen-1", "calibration", "good"],
    ["screen-2", "standard", "warning"],
    ["screen-2", "as-left", "warning"],
    ["screen-2", "signed", "advice"],
    ["screen-3", "recorded", "warning"],
    ["screen-3", "calibration", "warning"],
    ["screen-3", "as-left", "good"],
    ["screen-4", "firmware", "warning"],
    ["screen-4", "signed", "error"],
    ["screen-5", "readable", "error"],
    ["screen-6", "doubles", "warning"],
    ["screen-3", "doubles", "good"],
    ["screen-7", "recorded", "error"],
  ])("says of %s, %s: %s", (screenId, check, state) => {
    expect(stateOf(audit, screenId, check)?.state).toBe(state);
  });

  it("names what it found", () => {
    expect(stateOf(audit, "screen-2", "as-left")?.words).toBe(
      "1 change since entry 1 of 2026-05-01; first seen in entry 2 of 2026-11-01 (routine, Service team).",
    );
    expect(stateOf(audit, "screen-3", "calibration")?.words).toMatch(
      /the EQ changed by entry 2 of 2026-04-20 \(Service team\)/,
    );
    expect(stateOf(audit, "screen-6", "doubles")?.words).toContain(
      "serial number G28-1 is also that of mill/screen-1",
    );
  });

  it("says since which entry a screen is off its standard, and who recorded it", () => {
    const twoLines = compiledOf([
      { place: "presets/trailers-71/levelDb", hold: "exactly", value: -3.5 },
      { place: "presets/*/delayMs", hold: "within", min: 0, max: 60 },
    ]);
    const late = (levelDb: number, delayMs: number) =>
      edited(largeScreen, (draft) => {
        Object.assign(preset(draft, "trailers-71"), { levelDb, delayMs });
      });
    const check = (configurations: readonly Configuration[]) => {
      const visits = configurations.map((configuration, index) => ({
        on: `2026-0${index + 1}-01`,
        configuration,
      }));
      return rowOf("screen-1", visits, { standards: [twoLines] }).checks.find(
        (item) => item.check === "standard",
      );
    };
    // Off, on, off again: it counts from the last time.
    expect(check([late(0, 0), late(-3.5, 0), late(0, 0), late(0, 90), late(1, 90)])).toMatchObject({
      count: 2,
      since: [
        {
          number: 3,
          recordedAt: "2026-03-01T10:00:00Z",
          recordedBy: "Service team",
          fromTheStart: false,
          count: 1,
        },
        { number: 4, count: 1 },
      ],
      words:
        "Off house 1.0.0 at 2 places: Preset Trailers 7.1DS, preset level; Preset Trailers 7.1DS, program delay; " +
        "1 since entry 4 of 2026-04-01 (as-left, Service team), 1 since entry 3 of 2026-03-01 (as-left, Service team).",
    });
    expect(check([late(1, 0), late(0, 0)])).toMatchObject({
      since: [{ number: 1, recordedBy: "Alignment team", fromTheStart: true }],
    });
    expect(check([late(-3.5, 0)])).not.toHaveProperty("since");
  });

  it("does not say of an EQ that was never recorded otherwise that it changed", () => {
    const [first] = rowOf("screen-1", [{ on: "2026-10-01", configuration: good }]).checks.filter(
      ({ check }) => check === "calibration",
    );
    expect(first).toMatchObject({ state: "good", words: expect.stringContaining("the same in every entry") });
  });

  it("asks for signatures where the policy does, and cannot tell units whose profile is missing", () => {
    const unsigned = [{ on: "2026-10-01", configuration: good, signature: "none" as const }];
    const strict = auditOf([
      rowOf("screen-1", unsigned, { needsSignature: true, profileOf: () => undefined }),
    ]);
    expect(stateOf(strict, "screen-1", "signed")?.state).toBe("warning");
    expect(stateOf(strict, "screen-1", "valid")?.state).toBe("unknown");
    expect(stateOf(strict, "screen-1", "firmware")?.state).toBe("unknown");
  });

  it("counts every screen once in every check, and fits its schema", () => {
    for (const { check: _check, ...states } of audit.counts) {
      expect(Object.values(states).reduce((sum, count) => sum + count, 0)).toBe(rows.length);
    }
    expect(readDocument(JSON.stringify(audit), { expect: "boothkeep.audit" }).document).toEqual(audit);
  });

  it("comes out the same from rows that were taken over, on another day too", () => {
    const later = "2029-01-01T08:00:00Z";
    expect(auditOf(audit.screens, later, audit.layouts)).toEqual(auditOf(rows, later));
    expect(stateOf(auditOf(rows, later), "screen-1", "calibration")).toMatchObject({ state: "advice" });
    expect(auditOf(auditOf(rows, later).screens, undefined, audit.layouts)).toEqual(audit);
  });

  it("compared with the one before, says what got better and worse", () => {
    const mended = rows.map((row) =>
      row.screenId === "screen-2" ? rowOf("screen-2", [{ on: "2026-11-20", configuration: unit(2) }]) : row,
    );
    const after = auditOf(
      [...mended.slice(1), rowOf("screen-8", [{ on: "2026-11-01", configuration: unit(8) }])],
      "2027-05-01T08:00:00Z",
    );
    const { better, worse, newScreens, goneScreens } = compareAudits(audit, after);
    expect(better.map(({ screenId, check }) => `${screenId} ${check}`)).toEqual([
      "screen-2 standard",
      "screen-2 signed",
      "screen-2 as-left",
      "screen-2 twins",
      "screen-6 doubles",
    ]);
    expect(worse.map(({ screenId, check }) => `${screenId} ${check}`)).toEqual(
      ["screen-4", "screen-5", "screen-6"].map((screen) => `${screen} recorded`),
    );
    expect([newScreens, goneScreens]).toEqual([["mill/screen-8"], ["mill/screen-1"]]);
  });
});

/** Names that act in a spreadsheet, in CSV, or in HTML. */
const HOSTILE = [
  '=HYPERLINK("x")',
  "+1",
  "-2+3",
  "@SUM(A1)",
  'a "quoted", name',
  "two\r\nlines",
  "<script>alert(1)</script>",
  " =1+1",
];
const hostile = auditOf(
  HOSTILE.map((name, index) => ({
    ...rows[0]!,
    screenId: `screen-${index}`,
    siteName: name,
    screenName: name,
  })),
);

describe("an audit as papers", () => {
  it("text", () => {
    expectGolden("audit/terminal.txt", renderText(auditReport(audit)));
  });

  it("text for many screens: a line for each", () => {
    const many = auditOf(
      Array.from({ length: 50 }, (_, index) => ({
        ...rows[index % 3]!,
        siteId: `hall-${Math.floor(index / 10) + 1}`,
        siteName: `Hall ${Math.floor(index / 10) + 1}`,
        screenId: `screen-${(index % 10) + 1}`,
        screenName: `Screen ${(index % 10) + 1}`,
        serial: "",
        addresses: [],
      })),
    );
    expectGolden("audit/terminal-many.txt", renderText(auditReport(many)));
    const later = auditOf(many.screens.slice(5), "2027-06-25T08:00:00Z");
    expectGolden("audit/comparison-many.txt", renderText(auditComparisonReport(compareAudits(many, later))));
  });

  it("CSV", () => {
    const csv = auditCsv(audit);
    // Kept with plain line ends, since version control changes them in text files.
    expectGolden("audit/audit.csv", csv.replaceAll("\r\n", "\n"));
    expect(csv.match(/\r\n/g)).toHaveLength(rows.length + 1);
    expect(csv.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(auditCsv(audit).split("\r\n").at(-1)).toBe("");
  });

  it.runIf(outside("python"))("CSV as Python's csv module reads it", () => {
    const program = `
import csv, io, json, sys
print(json.dumps(list(csv.reader(io.StringIO(sys.stdin.read(), newline=""), strict=True))))`;
    for (const document of [audit, hostile]) {
      const { stdout } = spawnSync(requireOutside("python"), ["-c", program], {
        input: auditCsv(document),
        encoding: "utf8",
      });
      const [header, ...read] = JSON.parse(stdout) as string[][];
      expect(read).toHaveLength(document.screens.length);
      expect(new Set(read.map((row) => row.length))).toEqual(new Set([header!.length]));
      expect(read.map((row) => row[2])).toEqual(document.screens.map(({ screenId }) => screenId));
      expect(read.flat().filter((cell) => /^[\s]*[=+\-@]/.test(cell))).toEqual([]);
    }
  });

  it("the page names every screen and every finding, and lets nothing act", () => {
    const page = auditPage(audit);
    for (const { checks } of audit.screens) {
      for (const { words } of checks.filter(({ state }) => state !== "good" && state !== "none")) {
        expect(page).toContain(
          words.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;"),
        );
      }
    }
    expect(auditPage(hostile)).not.toContain("<script>alert");
    expect(auditPage(hostile).match(/<script/g)).toHaveLength(1);
    expect(page).not.toMatch(/(?:src|href)="(?!#)/);
  });
});
