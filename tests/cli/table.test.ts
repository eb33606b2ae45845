import {
  copyFileSync,
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
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { TABLES } from "../../cli/commands/table.ts";
import { TABLE_NAMES } from "../../src/exchange/tables/index.ts";
import { asLeft } from "../diff/changes/samples.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "..", "..", "samples");
const folders: string[] = [];
let cwd = "";

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), "boothkeep-table-"));
  folders.push(cwd);
  mkdirSync(join(cwd, "profiles"));
  copyFileSync(join(samples, "profiles", "skarn-30.json"), join(cwd, "profiles", "skarn-30.json"));
  copyFileSync(join(samples, "screens", "lantern-mill", "screen-1.json"), join(cwd, "screen-1.json"));
});

afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

const run = (...args: string[]) => runCommand(args, { cwd });
const read = (name: string) => readFileSync(join(cwd, name), "utf8");
const document = (name: string) => JSON.parse(read(name)) as typeof asLeft;
const narrow = (text: string) =>
  expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);

describe("boothkeep table", () => {
  it("knows every table", () => {
    expect(TABLES).toEqual(TABLE_NAMES);
  });

  it("explains itself within 80 columns", async () => {
    for (const args of [["table"], ["table", "write"], ["table", "take"]]) {
      const { out, code } = await run(...args, "--help");
      expect(code).toBe(0);
      narrow(out);
      if (args.length > 1) expect(out).toMatch(/^ {2}boothkeep table /m);
    }
  });

  // Loads nearly everything, and a busy machine takes its time.
  it("writes a workbook and takes it back without a change", { timeout: 120_000 }, async () => {
    const wrote = await run("table", "write", "screen-1.json", "--out", "screen-1.xlsx");
    expect(wrote).toMatchObject({ code: 0, err: "" });
    expect(wrote.out).toMatch(/outputs +30 rows/);
    const back = await run("table", "take", "screen-1.json", "screen-1.xlsx", "--out", "same.json");
    expect(back.code).toBe(0);
    expect(back.out).toContain("The tables change nothing.");
    expect(back.out).toContain("CAUTION");
    narrow(back.out);
    expect(document("same.json")).toEqual(asLeft);
  });

  it("writes a folder of CSV files in the form that is asked for, and takes them back", async () => {
    const { code } = await run(
      "table",
      "write",
      "screen-1.json",
      "--out",
      "tables",
      "--separator",
      "semicolon",
      "--byte-order-mark",
    );
    expect(code).toBe(0);
    expect(readdirSync(join(cwd, "tables")).sort()).toEqual(
      [...TABLE_NAMES].sort().map((name) => `${name}.csv`),
    );
    expect(read("tables/channels.csv")).toMatch(/^\ufeffSite key;Screen key;/);
    expect(read("tables/channels.csv")).toContain("-0,4;");
    const files = TABLE_NAMES.map((name) => `tables/${name}.csv`);
    const wrong = await run("table", "take", "screen-1.json", ...files, "--out", "n.json");
    expect(wrong.code).toBe(2);
    expect(wrong.err).toMatch(/separated by\s+semicolons/);
    expect(existsSync(join(cwd, "n.json"))).toBe(false);
    const right = await run(
      "table",
      "take",
      "screen-1.json",
      ...files,
      "--separator",
      "semicolon",
      "--out",
      "n.json",
    );
    expect(right.code).toBe(0);
    expect(document("n.json")).toEqual(asLeft);
  });

  it("takes one cell, says what it means, protection first, and writes nothing over", async () => {
    await run("table", "write", "screen-1.json", "--only", "outputs", "--out", "outputs.csv");
    writeFileSync(
      join(cwd, "outputs.csv"),
      read("outputs.csv").replace(/(left-hf,.*linkwitz-riley,4,)1600,/, "$11000,"),
    );
    const { out, err, code } = await run(
      "table",
      "take",
      "screen-1.json",
      "outputs.csv",
      "--out",
      "new.json",
    );
    expect(code).toBe(1);
    expect(out.indexOf("Protection of drivers")).toBeGreaterThan(0);
    expect(out).toContain("High-pass moved from 1.6 kHz to 1 kHz");
    expect(out).toContain("crossover/high-pass-below-safe");
    expect(err).toContain("New configuration: new.json");
    narrow(out);
    const wanted = structuredClone(asLeft) as unknown as {
      outputs: { id: string; highPass: { frequencyHz: number } }[];
    };
    wanted.outputs.find(({ id }) => id === "left-hf")!.highPass.frequencyHz = 1000;
    expect(document("new.json")).toEqual(wanted);
    const again = await run("table", "take", "screen-1.json", "outputs.csv", "--out", "new.json");
    expect(again.code).toBe(2);
    expect(again.err).toContain("nothing is ever written over");
  });

  it("tells everything that is wrong with its cell, and writes nothing", async () => {
    await run("table", "write", "screen-1.json", "--only", "channels", "--out", "channels.csv");
    writeFileSync(
      join(cwd, "channels.csv"),
      read("channels.csv").replace("-0.4", '"-0,4"').replace("-0.3", "high"),
    );
    const { out, err, code } = await run(
      "table",
      "take",
      "screen-1.json",
      "channels.csv",
      "--out",
      "new.json",
    );
    expect({ out, code }).toEqual({ out: "", code: 2 });
    expect(err).toContain("2 things have to be mended first.");
    expect(err).toContain("channels.csv, cell F2, column 'Channel level (dB)': '-0,4' has a decimal");
    expect(err).toContain("cell F3");
    narrow(err);
    expect(existsSync(join(cwd, "new.json"))).toBe(false);
    const json = await run("table", "take", "screen-1.json", "channels.csv", "--out", "new.json", "--json");
    expect(JSON.parse(json.out)).toMatchObject({
      kind: "refused",
      total: 2,
      problems: [{ cell: "F2" }, { cell: "F3" }],
    });
  });

  it("says so when the unit's profile is not at hand", async () => {
    rmSync(join(cwd, "profiles"), { recursive: true });
    await run("table", "write", "screen-1.json", "--out", "t.xlsx");
    const { out, code } = await run("table", "take", "screen-1.json", "t.xlsx", "--out", "n.json");
    expect(code).toBe(0);
    expect(out).toMatch(/profile was not at hand/);
  });

  it("gives the account as JSON and as a page", async () => {
    await run("table", "write", "screen-1.json", "--out", "t.xlsx");
    const json = await run("table", "take", "screen-1.json", "t.xlsx", "--out", "n.json", "--json");
    expect(JSON.parse(json.out)).toMatchObject({
      kind: "taken",
      withProfile: true,
      moved: [],
      newFindings: [],
    });
    const page = await run(
      "table",
      "take",
      "screen-1.json",
      "t.xlsx",
      "--out",
      "n2.json",
      "--report",
      "account.html",
    );
    expect(page.code).toBe(0);
    expect(read("account.html")).toMatch(/^<!doctype html>/i);
  });

  it.each([
    ["several tables in one CSV file", ["--out", "x.csv"], /holds one table/],
    ["a workbook of another kind", ["--out", "x.xls"], /\.xlsx/],
  ])("refuses %s", async (_what, args, words) => {
    const { err, code } = await run("table", "write", "screen-1.json", ...args);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });

  it("names the file of a workbook that is none", async () => {
    writeFileSync(join(cwd, "bad.xlsx"), "Output,Gain\n");
    const { err, code } = await run("table", "take", "screen-1.json", "bad.xlsx", "--out", "n.json");
    expect(code).toBe(2);
    expect(err).toMatch(/file bad.xlsx/);
    expect(err).toContain("table.not-readable");
  });
});
