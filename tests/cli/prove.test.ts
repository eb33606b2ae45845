import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Proof } from "../../src/model/index.ts";
import { changed, item, large, profileOf } from "../proof/samples.ts";
import { runCommand } from "./run-command.ts";

const cwd = mkdtempSync(join(tmpdir(), "prove-"));
const prove = (...args: readonly string[]) => runCommand(["prove", ...args], { cwd });

beforeAll(() => {
  mkdirSync(join(cwd, "profiles"));
  const edited = changed(large, ({ outputs }) => {
    item(outputs, "center-hf").gainDb += 6;
  });
  const files = { "profiles/unit.json": profileOf(large), "before.json": large, "edited.json": edited };
  for (const [name, document] of Object.entries(files)) {
    writeFileSync(join(cwd, name), JSON.stringify(document));
  }
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

describe("boothkeep prove", () => {
  it("ends with 0 where nothing differs", async () => {
    const { code, out } = await prove("before.json", "before.json");
    expect(code).toBe(0);
    expect(out).toContain("Every path is the same");
    expect(Math.max(...out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(80);
  });

  it("ends with 1 for a configuration that was edited by hand, and says where", async () => {
    const { code, out } = await prove("before.json", "edited.json");
    expect(code).toBe(1);
    expect(out).toContain("Not proven");
    expect(out).toContain("+6.00 dB at all frequencies");
  });

  it("gives the proof as JSON, and a page as a new file", async () => {
    const { out } = await prove("before.json", "edited.json", "--json");
    const proof = JSON.parse(out) as Proof;
    expect(proof.verdict).toBe("differs");
    const { same, changedByDecision, leftOut, undecided } = proof.parts;
    const parts = [same, changedByDecision, leftOut, undecided];
    expect(parts.reduce((sum, { paths }) => sum + paths, 0)).toBe(proof.counts.paths);
    expect(parts.reduce((sum, { settings }) => sum + settings, 0)).toBe(proof.settingsCompared);
    expect((await prove("before.json", "edited.json", "--out", "proof.html")).code).toBe(1);
    expect(readFileSync(join(cwd, "proof.html"), "utf8")).toContain("<!DOCTYPE html>");
    expect((await prove("before.json", "edited.json", "--out", "proof.html")).err).toContain("output.exists");
  });

  it("ends with 2 for a file that is not there", async () => {
    expect((await prove("before.json", "nowhere.json")).code).toBe(2);
  });
});
