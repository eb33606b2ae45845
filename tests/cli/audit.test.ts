import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { createLogbook, folderStore, record } from "../../src/logbook/entries/index.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "..", "..", "samples");
const cwd = mkdtempSync(join(tmpdir(), "boothkeep-audit-"));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

cpSync(join(samples, "profiles"), join(cwd, "profiles"), { recursive: true });
const logbook = createLogbook(folderStore(join(cwd, "logbook")), {
  id: "018f3f2e-0000-7000-8000-00000000000a",
  startedAt: "2026-03-01T08:00:00Z",
});
const keep = (name: string, reason: "as-left" | "as-found", recordedAt: string) =>
  record(logbook, {
    configuration: JSON.parse(readFileSync(join(samples, name), "utf8")),
    reason,
    recordedAt,
    recordedBy: "Service team",
  });
keep("screens/lantern-mill/screen-1.json", "as-left", "2026-06-20T22:00:00Z");
keep("screens/lantern-mill/screen-4.json", "as-left", "2026-06-20T23:00:00Z");

const standard = join(samples, "standards", "house-71-1.0.0.json");
const run = (...args: string[]) => runCommand(["audit", "logbook", "--standard", standard, ...args], { cwd });

describe("boothkeep audit", () => {
  it("finds nothing that needs somebody in screens as left", async () => {
    const result = await run("--out", "first.json", "--csv", "first.csv", "--html", "first.html");
    expect(result.code).toBe(0);
    expect(result.out).toContain("2 screens on 2026-11-02; 0 need somebody");
    expect(readFileSync(join(cwd, "first.html"), "utf8")).toContain("Lantern Mill");
    expect(readFileSync(join(cwd, "first.csv"), "utf8").split("\r\n")).toHaveLength(4);
  });

  it("takes over what did not change, and tells what got worse", async () => {
    keep("visits/lantern-mill/screen-1-autumn.json", "as-found", "2026-11-01T22:00:00Z");
    const result = await run("--earlier", "first.json", "--json");
    expect(result.code).toBe(1);
    const { audit, comparison } = JSON.parse(result.out);
    const first = JSON.parse(readFileSync(join(cwd, "first.json"), "utf8"));
    expect(audit.screens[1]).toEqual(first.screens[1]);
    expect(audit.screens[0].basis).not.toBe(first.screens[0].basis);
    const worse = comparison.worse.map(
      ({ screenId, check }: { screenId: string; check: string }) => `${screenId} ${check}`,
    );
    expect(worse).toEqual(
      expect.arrayContaining(["screen-1 valid", "screen-1 as-left", "screen-1 calibration"]),
    );
  });
});
