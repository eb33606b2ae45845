import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fastJsonPatch from "fast-json-patch";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalHash } from "../../src/base/canonical/index.ts";
import type { Comparison } from "../../src/model/index.ts";
import { asFound, asLeft } from "../diff/changes/samples.ts";
import { edited, item } from "../diff/compare/edited.ts";
import { runCommand } from "./run-command.ts";

const cwd = mkdtempSync(join(tmpdir(), "compare-"));
const profiles = ["--profiles", join(import.meta.dirname, "..", "..", "samples", "profiles")];
const slightly = edited((draft) => {
  item(draft.channels, "L").levelDb += 0.3;
});

beforeAll(() => {
  const files = { "left.json": asLeft, "found.json": asFound, "slightly.json": slightly };
  for (const [name, document] of Object.entries(files))
    writeFileSync(join(cwd, name), JSON.stringify(document));
  writeFileSync(join(cwd, "broken.json"), '{"kind":');
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const compare = (...args: readonly string[]) => runCommand(["compare", ...args], { cwd });

describe("boothkeep compare", () => {
  it("says what changed, most serious first, and ends with 1", async () => {
    const { out, err, code } = await compare("left.json", "found.json", ...profiles);
    expect(code).toBe(1);
    expect(err).toBe("");
    expect(out).toMatch(/^Lantern Mill, Screen 1: what changed\nBefore: left\.json\. After: found\.json\.\n/);
    expect(out).toMatch(/ 1 {2}Screen left, hf way \(protection, settle first\)/);
    expect(out).toMatch(/amplifiers off or muted, fader down/);
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it("is quiet when nothing changed, and ends with 0", async () => {
    const { out, code } = await compare("left.json", "left.json");
    expect(code).toBe(0);
    expect(out.split("\n").slice(2).join("\n")).toMatch(/^═+\n\nNothing changed\.\n$/);
  });

  it("gives one JSON document with the hashes of both", async () => {
    const { out, code } = await compare("left.json", "found.json", "--json");
    const comparison = JSON.parse(out) as Comparison;
    expect(code).toBe(1);
    expect(comparison.kind).toBe("boothkeep.comparison");
    expect(comparison.after.sha256).toBe(canonicalHash(asFound));
    expect(comparison.curves).toEqual([]);
    const withCurves = JSON.parse(
      (await compare("left.json", "found.json", "--json", "--curves")).out,
    ) as Comparison;
    expect(withCurves.curves.length).toBeGreaterThan(0);
  });

  it("gives a patch that another library can apply, both ways", async () => {
    for (const [from, to, before, after] of [
      ["left.json", "found.json", asLeft, asFound],
      ["found.json", "left.json", asFound, asLeft],
    ] as const) {
      const { out } = await compare(from, to, "--format", "patch");
      expect(fastJsonPatch.applyPatch(structuredClone(before), JSON.parse(out), true).newDocument).toEqual(
        after,
      );
    }
  });

  it("writes a page to a new file and never over an old one", async () => {
    const first = await compare("left.json", "found.json", "--format", "html", "--out", "page.html");
    expect(first).toMatchObject({ out: "", code: 1 });
    const page = readFileSync(join(cwd, "page.html"), "utf8");
    expect(page).toMatch(/^<!DOCTYPE html>/);
    expect(page).toMatch(/<svg class="plot"/);
    const second = await compare("left.json", "found.json", "--format", "html", "--out", "page.html");
    expect(second.code).toBe(2);
    expect(second.err).toMatch(/output\.exists/);
    expect(readFileSync(join(cwd, "page.html"), "utf8")).toBe(page);
  });

  it("holds a screen against the house standard", async () => {
    const { out, code } = await compare("left.json", "left.json", "--standard", "found.json");
    expect(code).toBe(1);
    expect(out).toMatch(/Off the house standard/);
    expect(out).toMatch(/Program delay earlier by 38\.50 ms/);
    expect(out).toMatch(/was so when we\s+left/);
    expect(out).not.toMatch(/hf way/);
  });

  it("takes other tolerances", async () => {
    expect((await compare("left.json", "slightly.json")).code).toBe(1);
    const wider = await compare("left.json", "slightly.json", "--tolerance-db", "0.5");
    expect(wider.code).toBe(0);
    expect(wider.out).toMatch(/1 of 1 differing values .*\(0\.50 dB/);
  });

  it("lists every differing value on request", async () => {
    const { out } = await compare("left.json", "found.json", "--raw");
    expect(out).toMatch(/outputs \/ left-hf \/ highPass \/ frequencyHz +1\.6 kHz +1 kHz/);
  });

  it.each([
    [["left.json", "broken.json"], /input\.not-json/],
    [["left.json", "missing.json"], /input\.not-found/],
    [["left.json", "."], /input\.is-folder/],
    [["left.json"], /The argument .after. is needed/],
    [["left.json", "found.json", "--format", "pdf"], /pdf/],
    [["left.json", "found.json", "--tolerance-db", "much"], /usage\.wrong/],
  ])("refuses %j with 2", async (args, message) => {
    const { out, err, code } = await compare(...args);
    expect(code).toBe(2);
    expect(err).toMatch(message);
    expect(out).toBe("");
  });
});
