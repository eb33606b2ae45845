import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import type { Snapshot } from "../../../src/fleet/drift/index.ts";
import { DriftJob } from "../../../src/jobs/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { driftCsv } from "../../../src/report/index.ts";
import { outside, requireOutside } from "../../outside.ts";
import { expectGolden } from "../../report/golden.ts";
import { compiledOf, edited, largeScreen, preset } from "../standard/support.ts";

const HOSTILE = '=HYPERLINK("http://example.invalid";"x"), two\r\nlines';

const standard = compiledOf([
  { place: "presets/trailers-71/levelDb", hold: "exactly", value: -3.5, reason: HOSTILE },
  { place: "presets/trailers-71/label", hold: "exactly", value: "+TRAILERS" },
  { place: "presets/*/delayMs", hold: "within", min: 0, max: 60 },
  {
    place: "presets",
    hold: "at-least",
    items: [{ id: "organ", slot: 30, label: "ORGAN" }],
  },
]);

function snapshot(number: number, configuration: Configuration, recordedBy: string): Snapshot {
  return {
    entryId: `entry-${number}`,
    number,
    recordedAt: `2026-0${number}-01T09:00:00Z`,
    recordedBy,
    reason: "routine",
    sha256: String(number),
    read: () => configuration,
  };
}

function drift() {
  const job = new DriftJob(standard);
  const odd = edited(largeScreen, (draft) => {
    preset(draft, "trailers-71").levelDb = -1;
    preset(draft, "music").delayMs = 62.5;
  });
  const snapshots = [snapshot(1, largeScreen, "Alignment team"), snapshot(2, odd, "@Service, night")];
  job.add({ name: "mill/screen-1", configuration: odd, snapshots });
  for (const index of [2, 3, 4, 5]) job.add({ name: `mill/screen-${index}`, configuration: largeScreen });
  job.leaveOut({ name: "mill/screen-6", words: "Its configuration is lost.", isDamaged: true });
  return job.result();
}

describe("drift as CSV", () => {
  it("has a row for each deviation, each odd place and each screen that could not be read", () => {
    expectGolden("standard/drift.csv", driftCsv(drift()).replaceAll("\r\n", "\n"));
  });

  it.runIf(outside("python"))("is read by Python's csv module, value for value", () => {
    const program = `
import csv, io, json, sys
print(json.dumps(list(csv.DictReader(io.StringIO(sys.stdin.read(), newline=""), strict=True))))`;
    const { stdout } = spawnSync(requireOutside("python"), ["-c", program], {
      input: driftCsv(drift()),
      encoding: "utf8",
    });
    const rows = JSON.parse(stdout) as Readonly<Record<string, string>>[];
    const { findings, twins, unread } = drift();
    const deviations = findings.reduce((sum, { screens }) => sum + screens.length, 0);
    const odd = twins.flatMap((group) =>
      group.odd.flatMap(({ others }) => others.flatMap(({ screens }) => screens)),
    );
    expect(odd.length).toBeGreaterThan(0);
    expect(rows).toHaveLength(deviations + odd.length + unread.length);
    const level = rows.find(
      ({ Place, Screen, Against }) =>
        Place === "presets/trailers-71/levelDb" && Screen === "screen-1" && Against === "house 1.0.0",
    )!;
    expect(level).toMatchObject({
      Site: "mill",
      What: "other value",
      Kind: "sound",
      "Off by": "2.5",
      Unit: "dB",
      Since: "2026-02-01T09:00:00Z",
      "Since entry": "2",
      "In the first entry already": "no",
      "Recorded by": "'@Service, night",
      "Put right by": "applying the standard",
    });
    expect([Number(level["Should be"]), Number(level.Is)]).toEqual([-3.5, -1]);
    expect(rows.find(({ Place }) => Place === "presets/music/delayMs")).toMatchObject({
      "Should be": "0 to 60",
      Is: "62.5",
      "Off by": "2.5",
    });
    // Only numbers may start with a sign.
    const acting = rows.flatMap((row) => Object.values(row)).filter((cell) => /^\s*[=+\-@]/.test(cell));
    expect(acting.filter((cell) => !Number.isFinite(Number(cell)))).toEqual([]);
  });
});
