import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { asLeft } from "../diff/changes/samples.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "..", "..", "samples");
const folders: string[] = [];
let cwd = "";

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), "boothkeep-measured-"));
  folders.push(cwd);
  copyFileSync(join(samples, "screens", "lantern-mill", "screen-1.json"), join(cwd, "screen-1.json"));
  copyFileSync(join(samples, "measurements", "lantern-mill-1.csv"), join(cwd, "m.csv"));
});

afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

const run = (...args: string[]) => runCommand(args, { cwd });
const read = (name: string) => readFileSync(join(cwd, name), "utf8");
const take = (...more: string[]) =>
  run("measured", "take", "screen-1.json", "m.csv", "--by", "Alignment team", "--out", "new.json", ...more);
const narrow = (text: string) =>
  expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);

describe("boothkeep measured", () => {
  it("explains itself within 80 columns", async () => {
    for (const args of [["measured"], ["measured", "take"], ["measured", "show"]]) {
      const { out, code } = await run(...args, "--help");
      expect(code).toBe(0);
      narrow(out);
      if (args.length > 1) expect(out).toMatch(/^ {2}boothkeep measured /m);
    }
  });

  it("takes a table into the calibration, says how, and writes nothing over", async () => {
    const { out, err, code } = await take();
    expect(code).toBe(0);
    expect(out).toMatch(/^L +power average of 5 positions, at most \d\.\d dB apart$/m);
    expect(out).toMatch(/Not measured now, kept from before: LFE, Lss/);
    expect(err).toContain("New configuration: new.json");
    narrow(out);
    // The day of the test's clock.
    expect(JSON.parse(read("new.json"))).toMatchObject({
      calibration: { date: "2026-11-02", by: "Alignment team" },
    });
    expect((await take()).err).toContain("nothing is ever written over");
    expect(JSON.parse(read("screen-1.json"))).toEqual(asLeft);
  });

  it("takes positions from a table of their own", async () => {
    writeFileSync(join(cwd, "m.csv"), read("m.csv").replaceAll(" at p", " at seat-"));
    const unknown = await take();
    expect(unknown.code).toBe(2);
    expect(unknown.err).toMatch(/no microphone position 'seat-1'/);
    expect(unknown.err).toContain("Where: file m.csv");
    const rows = [1, 2, 3, 4, 5].map((k) => `seat-${k},${k},${10 + k},1.2`);
    writeFileSync(
      join(cwd, "p.csv"),
      `Microphone position,Position across (m),Distance from the screen (m),Height (m)\n${rows.join("\n")}\n`,
    );
    expect((await take("--positions", "p.csv")).code).toBe(0);
    expect(JSON.parse(read("new.json")).calibration.microphonePositions).toHaveLength(5);
    writeFileSync(join(cwd, "bad.csv"), "Microphone position\nseat-1\n");
    const bad = await run(
      "measured",
      "take",
      "screen-1.json",
      "m.csv",
      "--by",
      "x",
      "--positions",
      "bad.csv",
      "--out",
      "b.json",
    );
    expect(bad.code).toBe(2);
    expect(bad.err).toContain("'Height (m)' is missing");
    expect(existsSync(join(cwd, "b.json"))).toBe(false);
  });

  it("tells what is wrong with its place, and writes nothing", async () => {
    writeFileSync(join(cwd, "m.csv"), read("m.csv").replace(/^1000,/m, "1020,"));
    const { err, code } = await take();
    expect(code).toBe(2);
    expect(err).toContain("m.csv, cell A17, column 'Frequency (Hz)': 1020 Hz is no third octave");
    narrow(err);
    expect(existsSync(join(cwd, "new.json"))).toBe(false);
    expect(JSON.parse((await take("--json")).out)).toMatchObject({ kind: "refused", total: 1 });
  });

  it("shows measured responses as text, page and figures", async () => {
    const { out, code } = await run("measured", "show", "screen-1.json");
    expect(code).toBe(0);
    expect(out).toMatch(/^ *1 kHz +[−+ ]?\d\.\d/m);
    expect(out).toMatch(/not\s+verified/);
    narrow(out);
    expect((await run("measured", "show", "screen-1.json", "--out", "m.html")).code).toBe(0);
    expect(read("m.html")).toContain('class="tolerance"');
    const { out: json } = await run("measured", "show", "screen-1.json", "--json");
    expect(JSON.parse(json)).toMatchObject({
      toleranceDb: 3,
      toleranceVerified: false,
      channels: [{ channelId: "L" }, {}, {}, {}, {}, {}, {}],
    });
  });

  it("says so when nothing was measured", async () => {
    const { calibration: _none, ...bare } = asLeft;
    writeFileSync(join(cwd, "bare.json"), JSON.stringify(bare));
    const { err, code } = await run("measured", "show", "bare.json");
    expect(code).toBe(2);
    expect(err).toMatch(/nothing was measured/);
  });
});
