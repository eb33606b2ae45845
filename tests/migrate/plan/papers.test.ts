import { describe, expect, it } from "vitest";
import { headroomChange, planMigration } from "../../../src/migrate/plan/index.ts";
import {
  CAUTIONS,
  entrySheet,
  migrationPlanReport,
  migrationSummary,
  renderHtml,
  renderText,
  repatchSheet,
} from "../../../src/report/index.ts";
import { expectGolden } from "../../report/golden.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "./example.ts";

const names = { screen: "Quarry Lane, Screen 2", from: "Old 8", to: "New 8" };
const units = { from: OLD_UNIT, to: NEW_UNIT };
const open = planMigration(SCREEN, units);
const plan = planMigration(SCREEN, {
  ...units,
  decisions: decisionsWith(ANSWERS, {
    connectors: [{ item: "outputs/right-hf", rule: "on", connectorId: "line-8" }],
  }),
});

const PAPERS = {
  "plan-open": migrationSummary(open, { names }),
  "plan-report": migrationPlanReport(plan, { names, headroom: headroomChange(plan, SCREEN, units) }),
  "re-patch-sheet": repatchSheet(plan, { names }),
  "entry-sheet": entrySheet(plan.configuration, { profile: NEW_UNIT }),
};

describe("the papers of a migration", () => {
  it.each(Object.entries(PAPERS))("%s reads as agreed, in 80 columns", (name, paper) => {
    const text = renderText(paper);
    expect(Math.max(...text.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(80);
    expectGolden(`migrate/${name}.txt`, text);
  });

  it.each(Object.entries(PAPERS))("%s carries the cautions", (_, paper) => {
    const words = renderText(paper, { columns: 2000 });
    for (const caution of CAUTIONS) expect(words).toContain(caution.words);
    expect(renderHtml(paper)).toContain("<!DOCTYPE html>");
  });
});

describe("the re-patch sheet", () => {
  const sheet = repatchSheet(plan, { names });
  const tables = sheet.blocks.filter((block) => block.kind === "table");

  it("follows the old unit's panel, and has a box for each cable twice: pulled and checked", () => {
    const boxed = tables.filter(({ boxes }) => boxes === true);
    const rows = boxed.reduce((sum, { rows: list }) => sum + list.length, 0);
    expect(rows).toBe(2 * plan.cables.length);
    expect(plan.cables.map(({ id }) => id)).toEqual([
      "input/Digital 1/2",
      "input/mic-1",
      "output/out-1",
      "output/out-2",
      "output/out-3",
      "output/out-4",
      "control/contact-1",
      "control/contact-2",
    ]);
  });

  it("makes the cables that go elsewhere stand out", () => {
    const strong = tables.flatMap(({ rows }) => rows.flat().filter((cell) => typeof cell === "object"));
    expect(strong).toEqual([{ text: "Line B: Line 8", strong: true }]);
  });

  it("names the pins of a DB-25 by AES59", () => {
    expect(renderText(sheet)).toMatch(/Out 3\s+hot 21, cold 9, screen 22/);
  });
});
