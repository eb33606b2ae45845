import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readConfiguration } from "../../src/model/index.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "../../samples");
let cwd: string;
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), "boothkeep-new-"));
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const args = (description: string, ...more: string[]) => [
  "new",
  join(samples, `descriptions/${description}.json`),
  "--loudspeakers",
  join(samples, "loudspeakers/house-data.json"),
  ...more,
];

describe("boothkeep new", () => {
  it("writes a configuration that boothkeep validate has no error of", async () => {
    const { code, out, err } = await runCommand(args("willow-arcade-2", "--out", "first.json"), { cwd });
    expect([code, err]).toEqual([1, ""]);
    expect(out).toContain("Wrong crossovers destroy drivers.");
    expect(out).toContain("Test the emergency mute");
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
    const written = readFileSync(join(cwd, "first.json"));
    expect(readConfiguration(written).document.screen.screenName).toBe("Screen 2");
    const profiles = join(samples, "profiles");
    const checked = await runCommand(
      ["validate", "first.json", "--severity", "error", "--profiles", profiles],
      {
        cwd,
      },
    );
    expect([checked.code, checked.err]).toEqual([0, ""]);
  });

  it("writes nothing over, and nothing when the room does not fit", async () => {
    const twice = await runCommand(args("willow-arcade-2", "--out", "first.json"), { cwd });
    expect(twice.code).toBe(2);
    expect(twice.err).toContain("nothing is ever written over");
    const other = await runCommand(
      args("willow-arcade-2", "--out", "other.json", "--profiles", join(samples, "maps")),
      { cwd },
    );
    expect(other.code).toBe(2);
    expect(existsSync(join(cwd, "other.json"))).toBe(false);
  });

  it("gives findings and open points as JSON", async () => {
    const { out } = await runCommand(args("willow-arcade-1", "--out", "one.json", "--json"), { cwd });
    const { written, findings, open } = JSON.parse(out);
    expect(written).toBe("one.json");
    expect(findings.map(({ severity }: { severity: string }) => severity)).not.toContain("error");
    expect(open.length).toBeGreaterThan(3);
  });
});
