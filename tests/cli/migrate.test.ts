import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Plan } from "../../src/migrate/plan/index.ts";
import type { Decisions } from "../../src/model/index.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../migrate/plan/example.ts";
import { runCommand } from "./run-command.ts";

const cwd = mkdtempSync(join(tmpdir(), "migrate-"));
const inFolder = (...path: readonly string[]) => join(cwd, ...path);
const read = (name: string) => readFileSync(inFolder(name), "utf8");
const migrate = (...args: readonly string[]) => runCommand(["migrate", ...args], { cwd });

beforeAll(() => {
  mkdirSync(inFolder("profiles"));
  mkdirSync(inFolder("screens"));
  // The example loses nothing that is heard: levels in steps of 0.1 dB keep it within the proof's tolerances.
  const to = { ...OLD_UNIT, id: NEW_UNIT.id, label: NEW_UNIT.label, firmwareRange: NEW_UNIT.firmwareRange };
  const screens = ["a", "b", "c"].map((screenId) => ({ ...SCREEN, screen: { ...SCREEN.screen, screenId } }));
  const files: Readonly<Record<string, unknown>> = {
    "profiles/old-8.json": OLD_UNIT,
    "profiles/new-8.json": to,
    "profiles/coarse-8.json": { ...NEW_UNIT, id: "coarse-8" },
    "left.json": SCREEN,
    "decisions.json": decisionsWith(ANSWERS.slice(0, 2)),
    "wrong.json": decisionsWith([{ questionId: "nothing/such", optionId: "x" }]),
    "classes.json": {
      kind: "boothkeep.decision-classes",
      schemaVersion: "1.0.0",
      classes: [{ name: "small", screens: ["quarry/a", "quarry/b"], decisions: "decisions.json" }],
    },
  };
  for (const [name, document] of Object.entries(files))
    writeFileSync(inFolder(name), JSON.stringify(document));
  for (const screen of screens) {
    writeFileSync(inFolder("screens", `${screen.screen.screenId}.json`), JSON.stringify(screen));
  }
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

describe("boothkeep migrate", () => {
  it("ends with 4 while decisions are missing, writes a file to fill in and no configuration", async () => {
    const { out, code } = await migrate(
      "left.json",
      "--to",
      "new-8",
      "--plan",
      "open.json",
      "--out",
      "no.json",
    );
    expect(code).toBe(4);
    expect(out).toContain("unit/serial");
    expect(out).toContain("Amplifiers off or muted".toLowerCase());
    expect(Math.max(...out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(80);
    expect(existsSync(inFolder("no.json"))).toBe(false);
    const toFillIn = JSON.parse(read("open.decisions.json")) as { answers: { optionId: unknown }[] };
    expect(toFillIn.answers.every(({ optionId }) => optionId === null)).toBe(true);
  });

  it("writes configuration, plan and papers when all is decided, and proves it", async () => {
    const { out, err, code } = await migrate(
      ...["left.json", "--to", "new-8", "--decisions", "decisions.json"],
      ...["--out", "new.json", "--plan", "plan.json", "--sheets", "papers"],
    );
    expect(err).toBe("");
    expect(out).toContain("Check: valid for the new unit.");
    expect(code).toBe(0);
    const plan = JSON.parse(read("plan.json")) as Plan;
    expect(plan.decided).toBe(true);
    expect(JSON.parse(read("new.json"))).toEqual(plan.configuration);
    expect(readdirSync(inFolder("papers")).sort()).toEqual([
      "entry-sheet.html",
      "entry-sheet.txt",
      "plan-report.html",
      "plan-report.txt",
      "proof.html",
      "proof.txt",
      "re-patch-sheet.html",
      "re-patch-sheet.txt",
    ]);
    const valid = await runCommand(["validate", "new.json"], { cwd });
    expect(valid.code).toBeLessThanOrEqual(1);
  });

  it("ends with 1 where the proof finds a difference", async () => {
    const coarse = { ...decisionsWith(ANSWERS), toProfileId: "coarse-8" };
    writeFileSync(inFolder("coarse.json"), JSON.stringify(coarse));
    const { out, code } = await migrate("left.json", "--to", "coarse-8", "--decisions", "coarse.json");
    expect(code).toBe(1);
    expect(out).toMatch(/read the\s+proof\s+before/);
    expect(out).toContain("Not proven");
  });

  it("says which answers are missing, and keeps those given in the file to fill in", async () => {
    writeFileSync(inFolder("half.json"), JSON.stringify(decisionsWith(ANSWERS.slice(0, 1))));
    const without = await migrate("left.json", "--to", "new-8", "--decisions", "half.json");
    expect(without.code).toBe(4);
    expect(without.out).toContain("1 of 2 questions is open after half.json.");
    expect(without.out).toMatch(/with the answers that\s+you have given/);
    expect(without.out).not.toContain("Proof\n");
    const beside = await migrate(
      ...["left.json", "--to", "new-8", "--decisions", "half.json", "--plan", "half-plan.json"],
    );
    expect(beside.out).toContain("Next: fill in half-plan.decisions.json");
    const { answers } = JSON.parse(read("half-plan.decisions.json")) as Decisions;
    expect(answers.map(({ questionId, text }) => [questionId, text])).toEqual([
      ["unit/firmware", undefined],
      ["unit/serial", "N8-7"],
    ]);
  });

  it("refuses to write over a file before it computes anything", async () => {
    writeFileSync(inFolder("taken.json"), "mine");
    const result = await migrate("left.json", "--to", "new-8", "--plan", "taken.json");
    expect([result.code, result.out]).toEqual([2, ""]);
    expect(result.err).toContain("output.exists");
  });

  it("gives one JSON document for scripts", async () => {
    const { out, code } = await migrate(
      "left.json",
      "--to",
      "new-8",
      "--decisions",
      "decisions.json",
      "--json",
    );
    expect(code).toBe(0);
    const result = JSON.parse(out) as { plan: Plan; proof: { verdict: string }; written: string[] };
    expect(result.plan.kind).toBe("boothkeep.plan");
    expect(result.proof.verdict).not.toBe("differs");
    expect(result.written).toEqual([]);
  });

  it("never writes over a file", async () => {
    writeFileSync(inFolder("there.json"), "mine");
    const { err, code } = await migrate(
      ...["left.json", "--to", "new-8", "--decisions", "decisions.json", "--out", "there.json"],
    );
    expect(code).toBe(2);
    expect(err).toContain("output.exists");
    expect(read("there.json")).toBe("mine");
  });

  it.each([
    ["a question that is not asked", ["--decisions", "wrong.json"], "decisions.unknown-question"],
    ["an unknown unit", ["--to", "nowhere"], "profile.unknown"],
    ["decisions that are none", ["--decisions", "left.json"], "document.wrong-kind"],
    ["many screens without a folder", ["screens/a.json"], "usage.wrong"],
  ])("ends with 2 for %s", async (_, args, code) => {
    const to = args.includes("--to") ? [] : ["--to", "new-8"];
    const result = await migrate("left.json", ...to, ...args);
    expect(result.code).toBe(2);
    expect(result.err).toContain(code);
    expect(result.err).toContain("Next:");
  });
});
