import {
  chmodSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "../../samples");
let cwd: string;
let sample: string;

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), "boothkeep-bad-"));
  cpSync(join(samples, "profiles"), join(cwd, "profiles"), { recursive: true });
  sample = readFileSync(join(samples, "screens/lantern-mill/screen-4.json"), "utf8");
  writeFileSync(join(cwd, "good.json"), sample);
});

afterEach(() => rmSync(cwd, { recursive: true, force: true }));

interface BadFile {
  readonly what: string;
  readonly make: (file: string) => void;
  readonly code: string;
  readonly exit: number;
  readonly says: RegExp;
}

const write = (edit: (text: string) => string) => (file: string) => writeFileSync(file, edit(sample));

const BAD_FILES: readonly BadFile[] = [
  { what: "is not there", make: () => {}, code: "input.not-found", exit: 2, says: /no file 'bad\.json'/ },
  {
    what: "is a folder",
    make: (file) => cpSync(join(samples, "maps"), file, { recursive: true }),
    code: "input.is-folder",
    exit: 2,
    says: /is a folder/,
  },
  {
    what: "is not JSON",
    make: write((text) => text.replace('"sources": [', '"sources": (')),
    code: "input.not-json",
    exit: 2,
    says: /line \d+, column \d+/,
  },
  {
    what: "is of another kind",
    make: (file) => cpSync(join(samples, "profiles/dunlin-16.json"), file),
    code: "document.wrong-kind",
    exit: 2,
    says: /unit profile/,
  },
  {
    what: "is of a newer major version",
    make: write((text) => text.replace('"schemaVersion": "1.0.0"', '"schemaVersion": "2.0.0"')),
    code: "document.newer-version",
    exit: 2,
    says: /2\.0\.0/,
  },
  {
    what: "holds NaN",
    make: write((text) => text.replace(/"levelDb": -?[\d.]+/, '"levelDb": NaN')),
    code: "input.not-json",
    exit: 2,
    says: /line \d+/,
  },
  {
    what: "holds 1e999",
    make: write((text) => text.replace(/"levelDb": -?[\d.]+/, '"levelDb": 1e999')),
    code: "input.number-range",
    exit: 2,
    says: /1e999|number/,
  },
  {
    what: "has a name twice",
    make: write((text) => text.replace('"unit": {', '"unit": {"serial": "X-1", ')),
    code: "input.duplicate-name",
    exit: 2,
    says: /serial/,
  },
  {
    what: "has an id twice",
    make: write((text) => text.replace('"id": "R"', '"id": "L"')),
    code: "document.invalid",
    exit: 2,
    says: /'L'/,
  },
  {
    what: "carries a password",
    make: write((text) => text.replace('"hostname":', '"password": "hunter2hunter2", "hostname":')),
    code: "document.secret",
    exit: 2,
    says: /password/,
  },
  {
    what: "has 200 MB",
    make: (file) => {
      writeFileSync(file, "{");
      truncateSync(file, 200_000_000);
    },
    code: "input.too-large",
    exit: 2,
    says: /190\.7 MiB/,
  },
];

describe("a file that", () => {
  it.each(BAD_FILES)(
    "$what is refused by record with one clear message and nothing half-written",
    async ({ make, code, exit, says }) => {
      await runCommand(["begin", "logbook"], { cwd });
      make(join(cwd, "bad.json"));
      const before = readdirSync(join(cwd, "logbook"), { recursive: true }).length;
      const result = await runCommand(
        ["record", "logbook", "bad.json", "--reason", "as-left", "--by", "Team"],
        { cwd },
      );
      expect(result.err).toContain(`(${code}, exit code ${exit})`);
      expect(result.err).toMatch(says);
      expect(result.err).toMatch(/^Next: /m);
      expect(result.err).not.toMatch(/\bat .*\.ts:/);
      for (const line of result.err.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
      expect(result.out).toBe("");
      expect(result.code).toBe(exit);
      expect(readdirSync(join(cwd, "logbook"), { recursive: true }).length).toBe(before);
    },
  );
});

describe("bad input elsewhere", () => {
  it("an id that points nowhere is a finding with its place", async () => {
    writeFileSync(
      join(cwd, "bad.json"),
      sample.replace(/"equalizationId": "[^"]+"/, '"equalizationId": "nowhere"'),
    );
    const { out, code } = await runCommand(["validate", "bad.json", "--json"], { cwd });
    expect(out).toContain("nowhere");
    expect(out).toContain("shape/dangling-reference");
    expect(code).toBe(1);
  });

  it("an unknown unit profile is named, with what is at hand", async () => {
    writeFileSync(
      join(cwd, "bad.json"),
      sample.replace('"profileId": "dunlin-16"', '"profileId": "puffin-9"'),
    );
    const { err, code } = await runCommand(["migrate", "bad.json", "--to", "profiles/whimbrel-32.json"], {
      cwd,
    });
    expect(err).toContain("puffin-9");
    expect(err).toContain("profile.unknown");
    expect(code).toBe(2);
  });

  it("a file that exists is never written over", async () => {
    writeFileSync(join(cwd, "new.json"), "mine");
    await runCommand(["begin", "logbook"], { cwd });
    await runCommand(["record", "logbook", "good.json", "--reason", "as-left", "--by", "Team"], { cwd });
    const { err, code } = await runCommand(
      ["restore", "logbook", "--site", "lantern-mill", "--screen", "screen-4", "--out", "new.json"],
      { cwd },
    );
    expect(err).toContain("output.exists");
    expect(code).toBe(2);
    expect(readFileSync(join(cwd, "new.json"), "utf8")).toBe("mine");
  });

  // A superuser may read and write everything; a full device exists on Linux only.
  it.skipIf(process.getuid?.() === 0 || process.platform === "win32")(
    "a file without permission",
    async () => {
      chmodSync(join(cwd, "good.json"), 0o000);
      const { err, code } = await runCommand(["compare", "good.json", "good.json"], { cwd });
      expect(err).toContain("input.no-permission");
      expect(code).toBe(2);
    },
  );

  it("a wrong option names the next step", async () => {
    const { err, code } = await runCommand(["validate", "good.json", "--severty", "error"], { cwd });
    expect(err).toMatch(/--severty/);
    expect(err).toMatch(/^Next: /m);
    expect(code).toBe(2);
  });

  it("what a file is named does nothing to the terminal", async () => {
    const { err, code } = await runCommand(["validate", "no\u001b[31m\u202e.json"], { cwd });
    expect(err).toContain("no[U+001B][31m[U+202E].json");
    expect(err).not.toContain("\u001b");
    expect(err).not.toContain("\u202e");
    expect(code).toBe(2);
  });

  it("an unknown command names the nearest", async () => {
    const { err, code } = await runCommand(["valdate", "good.json"], { cwd });
    expect(err).toContain("validate");
    expect(code).toBe(2);
    expect(existsSync(join(cwd, "logbook"))).toBe(false);
  });
});
