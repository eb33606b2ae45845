import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalHash } from "../../src/base/canonical/index.ts";
import type { Comparison } from "../../src/model/index.ts";
import { asFound, asLeft, screens } from "../diff/changes/samples.ts";
import { edited, item } from "../diff/compare/edited.ts";
import { runCommand } from "./run-command.ts";

const cwd = mkdtempSync(join(tmpdir(), "visit-"));
const samples = join(import.meta.dirname, "..", "..", "samples");
const house = join(samples, "standards", "house-71-1.0.0.json");
const PROFILES = ["--profiles", join(samples, "profiles")];
const SCREEN = ["--site", "lantern-mill", "--screen", "screen-1"];
/** What the sample standard holds: "presets/trailers-* /levelDb", exactly −3.5 dB. */
const loudTrailers = edited((draft) => {
  item(draft.presets, "trailers-51").levelDb = 0;
});
const boothkeep = (...args: readonly string[]) => runCommand(args, { cwd });
const visit = (...args: readonly string[]) => boothkeep("visit", "book", ...SCREEN, ...PROFILES, ...args);
const widest = (text: string) => Math.max(...text.split("\n").map((line) => line.length));

beforeAll(async () => {
  const files = {
    "left.json": asLeft,
    "found.json": asFound,
    "loud.json": loudTrailers,
    "b.json": screens[1],
  };
  for (const [name, document] of Object.entries(files))
    writeFileSync(join(cwd, name), JSON.stringify(document));
  await boothkeep("begin", "book");
  const by = ["--by", "North team"];
  expect((await boothkeep("record", "book", "left.json", "--reason", "as-left", ...by)).code).toBe(0);
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

describe("boothkeep visit", () => {
  it("tells what was found, what was done, and which commands keep it", async () => {
    const before = await boothkeep("history", "book", "--json");
    const { out, err, code } = await visit(
      ...["--found", "found.json", "--left", "left.json", "--by", "Night shift", "--notes", "All set back."],
    );
    expect(code).toBe(1);
    expect(out).toMatch(/^Service visit: Lantern Mill, Screen 1\n2026-11-0[23], Night shift\n/);
    expect(out).toMatch(
      /since the last visit[\s\S]*High-pass moved from 1\.6 kHz to 1 kHz[\s\S]*All set back\./,
    );
    expect(out).toMatch(
      /All set back\.[\s\S]*High-pass moved from 1 kHz to 1\.6 kHz[\s\S]*As left, in figures/,
    );
    expect(out).toMatch(/CAUTION/);
    expect(out).toMatch(/Signatures/);
    expect(widest(out)).toBeLessThanOrEqual(80);
    expect(err.trimStart()).toBe(`Next, to keep this visit in the logbook:
  boothkeep record book \\
    found.json \\
    --reason as-found --by 'Night shift'
  boothkeep record book \\
    left.json \\
    --reason as-left --by 'Night shift'
`);
    expect(await boothkeep("history", "book", "--json")).toEqual(before);
  });

  it("is quiet where the screen was found as it was left, and does not take as found for as left", async () => {
    const { out, err, code } = await visit("--found", "left.json");
    expect(code).toBe(0);
    expect(out).toMatch(/Nothing changed\.[\s\S]*The settings were left as they were found\./);
    expect(err).toMatch(/AS-LEFT\.json \\\n {4}--reason as-left --by WHO/);
  });

  it("gives the comparisons and the entry as data", async () => {
    const { out, err } = await visit("--found", "found.json", "--left", "left.json", "--json");
    const data = JSON.parse(out) as Record<string, unknown>;
    const [found, done] = [data.found, data.done] as [Comparison, Comparison];
    expect(err).toBe("");
    expect(found.before.sha256).toBe(canonicalHash(asLeft));
    expect(found.after.sha256).toBe(canonicalHash(asFound));
    expect(done.after.sha256).toBe(canonicalHash(asLeft));
    expect((data.since as { entry: { number: number } }).entry.number).toBe(1);
    expect((data.next as string[]).length).toBe(2);
  });

  it("holds the screen against a standard, or a configuration that shows it", async () => {
    const { out, code } = await visit("--found", "loud.json", "--standard", house);
    expect(code).toBe(1);
    const off = out.slice(out.indexOf("Off the house standard"), out.indexOf("What was done"));
    expect(off).toMatch(/Trailers/);
    expect(off).toMatch(/3\.5/);
    expect(off).toMatch(/changed since we\s+left/);
    expect((await visit("--found", "left.json", "--standard", house)).code).toBe(0);
    expect((await visit("--found", "left.json", "--standard", "found.json")).code).toBe(1);
  });

  it("writes the page of a file's name, never over an old one", async () => {
    const first = await visit("--found", "found.json", "--out", "visit.html");
    expect(first).toMatchObject({ out: "", code: 1 });
    expect(readFileSync(join(cwd, "visit.html"), "utf8")).toMatch(/^<!DOCTYPE html>[\s\S]*<svg class="plot"/);
    expect((await visit("--found", "found.json", "--out", "visit.html")).err).toMatch(/output\.exists/);
    const markdown = await visit("--found", "found.json", "--format", "markdown");
    expect(markdown.out).toMatch(/^# Service visit/);
  });

  it.each([
    [["--found", "b.json"], /not of\s+'lantern-mill', 'screen-1'/],
    [["--found", "left.json", "--left", "b.json"], /not of\s+'lantern-mill', 'screen-1'/],
    [["--found", "missing.json"], /input\.not-found/],
    [[], /--found/],
  ])("refuses %j with 2", async (args, message) => {
    const { out, err, code } = await visit(...args);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(message);
  });

  it("says that a standard is not for the screen", async () => {
    const other = JSON.parse(readFileSync(house, "utf8")) as Record<string, unknown>;
    writeFileSync(join(cwd, "other.json"), JSON.stringify({ ...other, screens: { formats: ["5.1"] } }));
    const { err, code } = await boothkeep("compare", "left.json", "left.json", "--standard", "other.json");
    expect(code).toBe(2);
    expect(err).toMatch(/not for lantern-mill,\s+screen-1/);
  });
});

describe("boothkeep handover-sheet", () => {
  it("prints the sheet of a configuration and of an entry", async () => {
    const file = await boothkeep("handover-sheet", "left.json", ...PROFILES, "--notes", "Keys in the rack.");
    expect(file.code).toBe(0);
    expect(file.out).toMatch(
      /^Handover sheet: Lantern Mill, Screen 1\n[\s\S]*CAUTION[\s\S]*Keys in the rack\./,
    );
    expect(file.out.replaceAll(/[ \n]/g, "")).toContain(canonicalHash(asLeft));
    expect(widest(file.out)).toBeLessThanOrEqual(80);
    const entry = await boothkeep("handover-sheet", "book", ...SCREEN, ...PROFILES);
    expect(entry.out).toMatch(/Entry +1, as left\n/);
    const part = (text: string) => text.slice(text.indexOf("Presets by slot"));
    expect(part(entry.out)).toBe(part(file.out));
  });

  it.each([
    [["book", ...PROFILES], /Say which: --site/],
    [["left.json", ...SCREEN, ...PROFILES], /no folder of a logbook/],
    [["book", "--site", "lantern-mill", "--screen", "nowhere", ...PROFILES], /logbook\.no-entry/],
  ])("refuses %j", async (args, message) => {
    const { out, err, code } = await boothkeep("handover-sheet", ...args);
    expect(out).toBe("");
    expect(code).toBeGreaterThan(1);
    expect(err).toMatch(message);
  });
});
