import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import {
  bindLogbook,
  createLogbook,
  folderStore,
  history,
  type Logbook,
  memoryStore,
  mergeLogbook,
  readEntry,
  record,
  withdraw,
} from "../../../src/logbook/entries/index.ts";
import { keyPairFromSeed } from "../../../src/logbook/signing/index.ts";
import { outside, requireOutside } from "../../outside.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";

const schemas = join(import.meta.dirname, "../../../schemas");
const page = readFileSync(join(schemas, "logbook-format.md"), "utf8");
const root = mkdtempSync(join(tmpdir(), "format-"));
afterAll(() => rmSync(root, { recursive: true }));

const folder = join(root, "logbook");
const logbook = createLogbook(folderStore(folder), NEW_LOGBOOK);
const odd = 'quote " backslash \\ colon : brace { ü 😀 \u2028 line\nend';
function visit(into: Logbook, screen: number, number: number): void {
  const gains = Array.from({ length: 300 }, (_, index) => (index % 7 === screen ? number + 0.5 : index / 8));
  const numbers = { tiny: 1e-7, huge: 1e21, none: null, empty: [], ...(number === 2 ? { more: [{}] } : {}) };
  record(into, {
    configuration: configuration(
      { gains, label: odd, [odd]: numbers },
      { screenId: `Screen ${screen}`, siteId: screen < 4 ? "quay" : "Pier" },
    ),
    ...circumstances(10 * screen + number),
    notes: odd,
    key: keyPairFromSeed(new Uint8Array(32)),
    attachments: [{ name: "a", bytes: new TextEncoder().encode(`attachment ${screen}`) }],
  });
}

for (let screen = 0; screen < 7; screen += 1) for (const number of [0, 1, 2]) visit(logbook, screen, number);
// The same configurations, kept as edits the other way round.
const apart = createLogbook(memoryStore(), NEW_LOGBOOK);
for (let screen = 6; screen >= 0; screen -= 1) for (const number of [2, 1, 0]) visit(apart, screen, number);
mergeLogbook(logbook, apart, { only: { siteId: "Pier" } });
withdraw(
  logbook,
  { siteId: "quay", screenId: "Screen 1" },
  { reason: odd, recordedAt: NEW_LOGBOOK.startedAt, recordedBy: "n" },
);
bindLogbook(logbook, { siteId: "Pier" });

const files = readdirSync(folder, { recursive: true, encoding: "utf8" })
  .filter((name) => statSync(join(folder, name)).isFile())
  .map((name) => name.split("\\").join("/"));
const packed = files.filter((name) => name.endsWith(".gz"));

describe("the page about the logbook's format", () => {
  it.runIf(outside("python"))("has a script that gets every configuration out", () => {
    const script = /```python\n([\s\S]*?)```/.exec(page)![1]!;
    writeFileSync(join(root, "recover.py"), script);
    const python = (...args: string[]) =>
      execFileSync(requireOutside("python"), [join(root, "recover.py"), folder, ...args], {
        encoding: "utf8",
        env: { ...process.env },
      });
    const { items } = history(logbook);
    expect(items).toHaveLength(30);
    const listed = python().trim().split("\n");
    expect(listed.map((line) => line.split(" ")[0]).sort()).toEqual(items.map((item) => item.id).sort());
    for (const { id } of items.filter((_, index) => index % 5 === 0)) {
      expect(python(id)).toBe(`${readEntry(logbook, { id }).canonicalText}\n`);
    }
  });

  it.runIf(outside("gunzip"))("is right that every file is gzip", () => {
    for (const name of packed) execFileSync("gunzip", ["-t", join(folder, name)]);
    const bound = packed.find((name) => name.startsWith("bound/"))!;
    const lines = execFileSync("gunzip", ["-c", join(folder, bound)], { encoding: "utf8" })
      .trimEnd()
      .split("\n");
    const kinds = lines.map((line) => (JSON.parse(line) as { kind: string }).kind);
    expect(kinds[0]).toBe("boothkeep.bound-index");
    expect(kinds.at(-1)).toBe("boothkeep.bound-index");
    expect(kinds.filter((kind) => kind === "boothkeep.entry")).toHaveLength(18);
  });

  it.runIf(outside("sha256sum"))("is right about the digests in names", () => {
    for (const name of packed) {
      const sum = execFileSync("sha256sum", [join(folder, name)], { encoding: "utf8" }).split(" ")[0]!;
      expect(basename(name).split(".").at(-2)).toBe(sum.slice(0, 16));
    }
    for (const name of packed.filter((path) => /^(parts|references)\//.test(path))) {
      const sum = execFileSync("sh", ["-c", 'gunzip -c "$1" | sha256sum', "sh", join(folder, name)], {
        encoding: "utf8",
      });
      expect(basename(name).split(".").at(-3)).toBe(sum.split(" ")[0]);
    }
  });

  it("names every file", () => {
    const patterns = [...page.matchAll(/^\| `([^`]+)`\s*\|/gm)]
      .map(([, pattern]) => pattern!)
      .filter((pattern) => pattern === "logbook.json" || pattern.includes("/"));
    expect(patterns).toContain("entries/SITE/SCREEN/ID.DIGEST.gz");
    const regexps = patterns.map(
      (pattern) =>
        new RegExp(
          `^${pattern
            .replace("...", "@")
            .replaceAll(".", "\\.")
            .replace("@", ".+")
            .replace(/[A-Z0-9]{2,}/g, "[^/.]+")}$`,
        ),
    );
    for (const name of files)
      expect(
        regexps.filter((regexp) => regexp.test(name)),
        name,
      ).toHaveLength(1);
  });

  it("links to files that are there", () => {
    for (const [, target] of page.matchAll(/\]\(([^)#]+)\)/g))
      expect(existsSync(join(schemas, target!)), target).toBe(true);
  });
});
