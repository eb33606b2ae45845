import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";

/**
 * Who may import whom, folder by folder. A folder is imported only through its index.ts. "t:x" allows type imports
 * only. The table is held both ways: no import outside it, no permission that nothing uses.
 */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  src: [
    "src/acoustics",
    "src/audit",
    "src/changes",
    "src/commission",
    "src/diff",
    "src/errors",
    "src/findings",
    "src/jobs",
    "src/logbook",
    "src/migrate",
    "src/model",
    "src/pack",
    "src/profile",
    "src/fieldmap",
    "src/imprint",
    "src/proof",
    "src/report",
    "src/restore",
    "src/rules",
    "src/signing",
    "src/sheets",
    "src/standard",
    "src/tables",
    "src/text",
    "src/units",
    "t:src/numeric",
  ],
  cli: [
    "src/acoustics",
    "src/text",
    "src/audit",
    "src/canonical",
    "src/changes",
    "src/commission",
    "src/diff",
    "src/errors",
    "src/fieldmap",
    "src/imprint",
    "src/jobs",
    "src/logbook",
    "src/migrate",
    "src/model",
    "src/pack",
    "src/profile",
    "src/report",
    "src/restore",
    "src/rules",
    "src/sheets",
    "src/signing",
    "src/standard",
    "src/tables",
    "t:src/findings",
  ],
  "src/commission": [
    "src/acoustics",
    "src/errors",
    "src/findings",
    "src/migrate",
    "src/model",
    "src/profile",
    "src/rules",
    "src/units",
  ],
  "src/errors": [],
  "src/text": [],
  "src/refit": ["src/acoustics", "src/numeric", "src/profile", "t:src/model"],
  "src/fieldmap": ["src/errors", "src/findings", "src/model", "src/profile", "src/text", "src/units"],
  "src/findings": [],
  "src/canonical": [],
  "src/imprint": ["src/errors", "t:src/logbook"],
  "src/logbook": ["src/canonical", "src/errors", "src/findings", "t:src/model", "src/signing"],
  "src/pack": ["src/canonical", "src/errors", "src/logbook", "src/model", "src/signing", "src/zip"],
  "src/sheets": ["src/errors", "src/text", "src/zip"],
  "src/tables": [
    "src/acoustics",
    "src/errors",
    "src/findings",
    "src/model",
    "src/profile",
    "src/sheets",
    "src/text",
    "src/units",
  ],
  "src/zip": [],
  "src/signing": ["src/canonical", "src/errors"],
  "src/units": [],
  "src/numeric": [],
  "src/acoustics": ["src/errors", "src/numeric", "src/units"],
  "src/model": ["src/errors", "src/findings", "src/units"],
  "src/profile": ["t:src/model", "src/units"],
  "src/rules": ["src/acoustics", "src/findings", "src/model", "src/profile", "src/units"],
  "src/migrate": [
    "src/acoustics",
    "src/canonical",
    "src/errors",
    "src/model",
    "src/numeric",
    "src/profile",
    "src/refit",
    "src/units",
  ],
  "src/proof": ["src/acoustics", "src/model", "src/profile", "src/units"],
  "src/changes": ["src/canonical", "src/errors", "src/findings", "src/model"],
  "src/restore": [
    "src/canonical",
    "src/changes",
    "src/errors",
    "src/findings",
    "src/model",
    "src/profile",
    "src/units",
    "t:src/logbook",
  ],
  "src/audit": [
    "src/canonical",
    "src/changes",
    "src/model",
    "src/profile",
    "src/rules",
    "src/standard",
    "src/text",
    "t:src/findings",
  ],
  "src/jobs": [
    "src/audit",
    "src/canonical",
    "src/diff",
    "src/errors",
    "src/logbook",
    "src/migrate",
    "src/model",
    "src/profile",
    "src/proof",
    "src/rules",
    "src/standard",
    "src/tables",
    "t:src/findings",
    "src/units",
  ],
  "src/standard": [
    "src/changes",
    "src/errors",
    "src/findings",
    "src/migrate",
    "src/model",
    "src/profile",
    "src/rules",
    "src/text",
    "src/units",
  ],
  "src/diff": ["src/acoustics", "src/changes", "src/errors", "src/findings", "src/model", "src/units"],
  "src/report": [
    "src/text",
    "t:src/acoustics",
    "t:src/tables",
    "src/findings",
    "t:src/audit",
    "t:src/findings",
    "t:src/imprint",
    "t:src/logbook",
    "src/model",
    "src/profile",
    "t:src/rules",
    "t:src/standard",
    "t:src/signing",
    "src/units",
  ],
};

/** A package lives behind one folder. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  ajv: ["src/model"],
  archiver: ["src/zip"],
  canonicalize: ["src/canonical"],
  "csv-parse": ["src/fieldmap", "src/sheets"],
  "fast-xml-parser": ["src/fieldmap", "src/sheets"],
  "json-p3": ["src/fieldmap"],
  qr: ["src/imprint"],
  commander: ["cli"],
  "get-east-asian-width": ["src/report"],
  semver: ["src/profile"],
  "json-diff-ts": ["src/changes"],
  unzipper: ["src/zip"],
};

/** Only these may touch files, folders, processes. Everything else is pure. */
const DISK: readonly string[] = ["cli", "src/logbook"];

const root = join(import.meta.dirname, "..");
const IMPORT =
  /^\s*(import|export)\s+(type\s)?[^;"']*?from\s+"([^"]+)"|^\s*import\s+"([^"]+)"|\bimport\("([^"]+)"\)/gm;

interface Import {
  readonly file: string;
  readonly from: string;
  readonly target: string;
  readonly typeOnly: boolean;
}

function sourceFiles(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts") && !name.includes("generated"))
    .map((name) => join(folder, name).split(sep).join("/"));
}

/** "src/x/y.ts" belongs to "src/x", "src/index.ts" to "src", everything in cli/ to "cli". */
function folderOf(file: string): string {
  const parts = file.split("/");
  if (parts[0] === "src") return parts.length === 2 ? "src" : `src/${parts[1]}`;
  return parts[0]!;
}

function importsOf(file: string): Import[] {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(IMPORT)].map((match) => ({
    file,
    from: folderOf(file),
    target: match[3] ?? match[4] ?? match[5] ?? "",
    typeOnly: match[2] !== undefined,
  }));
}

const files = [...sourceFiles("src"), ...sourceFiles("cli")];
const imports = files.flatMap(importsOf);

function resolveTarget(item: Import): string {
  return relative(root, join(root, dirname(item.file), item.target))
    .split(sep)
    .join("/");
}

const crossing = imports
  .filter((item) => item.target.startsWith("."))
  .map((item) => ({ ...item, path: resolveTarget(item) }))
  .map((item) => ({ ...item, to: folderOf(item.path) }))
  .filter((item) => item.to !== item.from);

describe("architecture", () => {
  it("reads the whole tree", () => {
    expect(files.length).toBeGreaterThan(5);
    expect(Object.keys(MAY_IMPORT).sort()).toEqual([...new Set(files.map(folderOf))].sort());
  });

  it("has no import outside the table", () => {
    const wrong = crossing.filter((item) => {
      const allowed = MAY_IMPORT[item.from] ?? [];
      return !(allowed.includes(item.to) || (item.typeOnly && allowed.includes(`t:${item.to}`)));
    });
    expect(wrong.map((item) => `${item.file} -> ${item.path}${item.typeOnly ? " (types)" : ""}`)).toEqual([]);
  });

  it("has no permission that nothing uses", () => {
    const unused = Object.entries(MAY_IMPORT).flatMap(([from, allowed]) =>
      allowed
        .filter((entry) => {
          const to = entry.replace(/^t:/, "");
          const uses = crossing.filter((item) => item.from === from && item.to === to);
          return entry.startsWith("t:") ? !uses.some((u) => u.typeOnly) : !uses.some((u) => !u.typeOnly);
        })
        .map((entry) => `${from} -> ${entry}`),
    );
    expect(unused).toEqual([]);
  });

  it("enters a folder only through its index", () => {
    const inside = crossing.filter(
      (item) => item.to.startsWith("src/") && item.path !== `${item.to}/index.ts`,
    );
    expect(inside.map((item) => `${item.file} -> ${item.path}`)).toEqual([]);
  });

  it("keeps each package behind its folders", () => {
    const external = imports.filter(
      (item) => !item.target.startsWith(".") && !item.target.startsWith("node:"),
    );
    const wrong = external.filter((item) => {
      const name = item.target.startsWith("@")
        ? item.target.split("/").slice(0, 2).join("/")
        : item.target.split("/")[0]!;
      return !(PACKAGES[name] ?? []).includes(item.from);
    });
    expect(wrong.map((item) => `${item.file} -> ${item.target}`)).toEqual([]);
  });

  it("keeps files and processes at the edge", () => {
    const edge = new Set([
      "node:fs",
      "node:fs/promises",
      "node:child_process",
      "node:os",
      "node:worker_threads",
    ]);
    const wrong = imports.filter((item) => edge.has(item.target) && !DISK.includes(item.from));
    expect(wrong.map((item) => `${item.file} -> ${item.target}`)).toEqual([]);
  });
});
