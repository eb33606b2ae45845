import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";

/**
 * The house: floors from the ground up, each with what it is for. A floor imports only floors below it. A floor either is
 * one room or consists of rooms (its folders with an index.ts); a room is entered only through its index.ts.
 */
const FLOORS = {
  base: "what any program needs and no domain is in: errors, findings, numbers, texts, hashes, zips",
  acoustics: "filters, paths, sums, levels; knows no document, so that it can be used alone",
  model: "what a configuration is: types, reading, upgrades, fields, places",
  words: "how parts, numbers and settings are called and printed: the only place of it",
  profile: "what a unit can do",
  diff: "what differs between two documents, as data and in an engineer's words",
  rules: "the rule book",
  migrate: "a configuration expressed for another unit",
  proof: "what became of every path, from two documents alone; must never see how a plan was made",
  logbook: "entries that survive, signatures, packs, and which entry may be loaded",
  fleet: "many screens: standards, drift, audit",
  exchange: "other people's files: exports, tables, measurements, a first configuration",
  report: "data to papers; computes nothing, so it sees types of the floors below and little else",
  jobs: "what needs several floors at once",
  public: "the doors of the package: which names go out, and nothing else",
} as const;

/**
 * Who may import whom, room by room. "t:x" allows type imports only. The table is held both ways: no import outside it,
 * no permission that nothing uses.
 */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  "src/base/canonical": [],
  "src/base/errors": [],
  "src/base/findings": [],
  "src/base/numeric": [],
  "src/base/text": [],
  "src/base/units": [],
  "src/base/zip": [],
  "src/acoustics": ["src/base/errors", "src/base/numeric", "src/base/units"],
  "src/model": ["src/base/errors", "src/base/findings"],
  "src/words": ["src/base/findings", "src/base/units", "src/model"],
  "src/profile": ["t:src/acoustics", "src/base/units", "t:src/model", "src/words"],
  "src/diff/changes": ["src/base/canonical", "src/base/errors", "src/base/findings", "src/model"],
  "src/diff/compare": [
    "src/acoustics",
    "src/base/errors",
    "src/base/findings",
    "src/base/units",
    "src/diff/changes",
    "src/model",
    "src/words",
  ],
  "src/rules": [
    "src/acoustics",
    "src/base/findings",
    "src/base/units",
    "src/model",
    "src/profile",
    "src/words",
  ],
  "src/migrate/plan": [
    "src/acoustics",
    "src/base/canonical",
    "src/base/errors",
    "src/base/numeric",
    "src/base/text",
    "src/base/units",
    "src/migrate/refit",
    "src/model",
    "src/profile",
    "src/words",
  ],
  "src/migrate/refit": ["src/acoustics", "src/base/numeric", "t:src/model", "src/profile"],
  "src/proof": ["src/acoustics", "src/base/units", "src/model", "src/profile", "src/words"],
  "src/logbook/entries": [
    "src/base/canonical",
    "src/base/errors",
    "src/base/findings",
    "t:src/base/findings",
    "src/logbook/medium",
    "src/logbook/signing",
    "src/logbook/standing",
    "t:src/model",
  ],
  "src/logbook/imprint": ["src/base/errors", "t:src/logbook/entries"],
  "src/logbook/medium": [
    "src/base/canonical",
    "src/base/errors",
    "t:src/base/findings",
    "src/logbook/signing",
    "t:src/model",
  ],
  "src/logbook/pack": [
    "src/base/canonical",
    "src/base/errors",
    "src/base/zip",
    "src/logbook/entries",
    "src/logbook/signing",
    "src/model",
  ],
  "src/logbook/restore": [
    "src/base/canonical",
    "src/base/errors",
    "src/base/findings",
    "src/diff/changes",
    "src/logbook/entries",
    "src/model",
    "src/profile",
    "src/words",
  ],
  "src/logbook/standing": [
    "src/base/canonical",
    "src/base/errors",
    "t:src/base/findings",
    "src/logbook/medium",
    "src/logbook/signing",
    "t:src/model",
    "src/words",
  ],
  "src/logbook/signing": ["src/base/canonical", "src/base/errors"],
  "src/fleet/audit": [
    "src/base/canonical",
    "t:src/base/findings",
    "src/base/text",
    "src/diff/changes",
    "src/fleet/drift",
    "src/fleet/likeness",
    "src/fleet/standard",
    "t:src/model",
    "src/profile",
    "src/rules",
    "src/words",
  ],
  "src/fleet/drift": ["src/base/findings", "src/base/text", "src/fleet/standard", "src/model"],
  "src/fleet/likeness": ["src/base/text", "src/fleet/standard", "src/model"],
  "src/fleet/standard": [
    "src/base/errors",
    "src/base/findings",
    "src/base/text",
    "src/migrate/plan",
    "src/model",
    "src/profile",
    "src/rules",
    "src/words",
  ],
  "src/exchange/commission": [
    "src/acoustics",
    "src/base/errors",
    "src/base/findings",
    "src/base/units",
    "src/model",
    "src/profile",
    "src/rules",
    "src/words",
  ],
  "src/exchange/fieldmap": [
    "src/base/errors",
    "src/base/findings",
    "src/base/text",
    "src/base/units",
    "src/model",
    "src/profile",
  ],
  "src/exchange/tables": [
    "src/acoustics",
    "src/base/errors",
    "src/base/findings",
    "src/base/text",
    "src/base/units",
    "src/exchange/workbook",
    "src/model",
    "src/profile",
    "src/words",
  ],
  "src/exchange/workbook": ["src/base/errors", "src/base/text", "src/base/zip"],
  "src/report": [
    "t:src/acoustics",
    "src/base/findings",
    "src/base/text",
    "src/base/units",
    "t:src/exchange/tables",
    "t:src/fleet/audit",
    "t:src/fleet/drift",
    "t:src/fleet/likeness",
    "t:src/fleet/standard",
    "t:src/logbook/entries",
    "t:src/logbook/imprint",
    "t:src/logbook/signing",
    "src/model",
    "src/profile",
    "t:src/rules",
    "src/words",
  ],
  "src/jobs": [
    "src/base/canonical",
    "src/base/errors",
    "t:src/base/findings",
    "src/diff/compare",
    "src/exchange/tables",
    "src/fleet/audit",
    "src/fleet/drift",
    "src/fleet/likeness",
    "src/fleet/standard",
    "src/logbook/entries",
    "src/logbook/imprint",
    "src/logbook/restore",
    "src/migrate/plan",
    "src/model",
    "src/profile",
    "src/proof",
    "src/report",
    "src/rules",
  ],
  cli: ["src/public"],
  // The doors take from every room, see below.
  "src/public": [],
};

/** A package lives behind these rooms, so that replacing it touches one place. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  ajv: ["src/model"],
  archiver: ["src/base/zip"],
  canonicalize: ["src/base/canonical"],
  "csv-parse": ["src/exchange/fieldmap", "src/exchange/workbook"],
  "fast-xml-parser": ["src/exchange/fieldmap", "src/exchange/workbook"],
  "json-p3": ["src/exchange/fieldmap"],
  qr: ["src/logbook/imprint"],
  commander: ["cli"],
  "get-east-asian-width": ["src/report"],
  semver: ["src/profile"],
  "json-diff-ts": ["src/diff/changes"],
  unzipper: ["src/base/zip"],
};

/** Only these may touch files, folders, processes. Everything else is pure. */
const DISK: readonly string[] = ["cli", "src/logbook/medium"];

const root = join(import.meta.dirname, "..");
const IMPORT =
  /^\s*(import|export)\s+(type\s)?[^;"']*?from\s+"([^"]+)"|^\s*import\s+"([^"]+)"|\bimport\(\s*"([^"]+)"\s*\)/gm;

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

const files = [...sourceFiles("src"), ...sourceFiles("cli")];

const doors = new Set(files.filter((file) => file.endsWith("/index.ts")));

/**
 * "src/x/index.ts" makes the whole floor one room; else "src/x/y/z.ts" belongs to room "src/x/y". The public doors are one
 * room with many entrances; everything in cli/ is one room.
 */
function roomOf(file: string): string {
  const parts = file.split("/");
  if (parts[0] !== "src") return parts[0]!;
  if (parts[1] === "public") return "src/public";
  return doors.has(`src/${parts[1]}/index.ts`) ? `src/${parts[1]}` : parts.slice(0, 3).join("/");
}

function importsOf(file: string): Import[] {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(IMPORT)].map((match) => ({
    file,
    from: roomOf(file),
    target: match[3] ?? match[4] ?? match[5] ?? "",
    typeOnly: match[2] !== undefined,
  }));
}

const imports = files.flatMap(importsOf);

function resolveTarget(item: Import): string {
  return relative(root, join(root, dirname(item.file), item.target))
    .split(sep)
    .join("/");
}

const inside = imports
  .filter((item) => item.target.startsWith("."))
  .map((item) => ({ ...item, path: resolveTarget(item) }))
  .map((item) => ({ ...item, to: roomOf(item.path) }));
const crossing = inside.filter((item) => item.to !== item.from);

const floorNames = Object.keys(FLOORS);
const floorOf = (room: string): string => room.split("/")[1] ?? "";

/** The command line is above all floors. */
const heightOf = (room: string): number => {
  const height = floorNames.indexOf(floorOf(room));
  return height < 0 ? floorNames.length : height;
};

/** Why the table does not have this arrow, as far as the floors say it. */
function whyForbidden(from: string, to: string): string {
  if (from === "cli") {
    return "what the command line can do, a program built on the package can do: import it from a door of src/public, and export it there if it is worth a public name";
  }
  if (heightOf(to) > heightOf(from)) {
    return `${to} is on a higher floor (${FLOORS[floorOf(to) as keyof typeof FLOORS] ?? "the outside"}): move what is shared down, or take it as an argument`;
  }
  const purpose = FLOORS[floorOf(from) as keyof typeof FLOORS] ?? "the outside";
  return `${from} is for: ${purpose}. If it really needs ${to}, add the arrow to MAY_IMPORT and say why in the commit`;
}

/** Packages that a room really imports. */
const external = imports
  .filter((item) => !item.target.startsWith(".") && !item.target.startsWith("node:"))
  .map((item) => ({
    ...item,
    name: item.target.startsWith("@")
      ? item.target.split("/").slice(0, 2).join("/")
      : item.target.split("/")[0]!,
  }));

describe("architecture", () => {
  it("reads the whole tree", () => {
    expect(files.length, "so few files: does the search still find them?").toBeGreaterThan(700);
    expect(imports.length, "so few imports: does the pattern still match them?").toBeGreaterThan(2500);
    expect(Object.keys(MAY_IMPORT).sort()).toEqual([...new Set(files.map(roomOf))].sort());
    expect(floorNames.map((floor) => `src/${floor}`).sort()).toEqual(
      [...new Set(files.map(roomOf).filter((room) => room.startsWith("src/")))]
        .map((room) => room.split("/").slice(0, 2).join("/"))
        .filter((floor, at, all) => all.indexOf(floor) === at)
        .sort(),
    );
  });

  it("has no import outside the table", () => {
    const wrong = crossing.filter((item) => {
      if (item.from === "src/public") return false;
      const allowed = MAY_IMPORT[item.from] ?? [];
      return !(allowed.includes(item.to) || (item.typeOnly && allowed.includes(`t:${item.to}`)));
    });
    expect(
      wrong.map(
        (item) =>
          `${item.file} -> ${item.path}${item.typeOnly ? " (types)" : ""}: ${whyForbidden(item.from, item.to)}`,
      ),
    ).toEqual([]);
  });

  it("has no arrow up, whatever the table says", () => {
    const up = Object.entries(MAY_IMPORT).flatMap(([from, allowed]) =>
      allowed
        .map((entry) => entry.replace(/^t:/, ""))
        .filter((to) => heightOf(to) > heightOf(from))
        .map((to) => `${from} -> ${to}: ${whyForbidden(from, to)}`),
    );
    expect(up).toEqual([]);
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
    expect(unused, "take what nothing uses out of MAY_IMPORT").toEqual([]);
  });

  it("enters a room only through its index", () => {
    const around = crossing.filter(
      (item) => item.to.startsWith("src/") && item.to !== "src/public" && item.path !== `${item.to}/index.ts`,
    );
    expect(
      around.map(
        (item) => `${item.file} -> ${item.path}: export it from ${item.to}/index.ts, or keep it inside`,
      ),
    ).toEqual([]);
  });

  it("has nothing but exports in the doors", () => {
    const wrong = files
      .filter((file) => roomOf(file) === "src/public")
      .filter((file) => {
        const text = readFileSync(join(root, file), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
        return text.replace(/export (type )?\{[^}]*\} from "[^"]+";/g, "").trim() !== "";
      });
    expect(wrong, "a door names what goes out; move the rest into a room").toEqual([]);
  });

  it("has no two files that import each other", () => {
    const arrows = new Set(
      inside.filter((item) => !item.typeOnly).map((item) => `${item.file} ${item.path}`),
    );
    const pairs = [...arrows]
      .map((arrow) => arrow.split(" ") as [string, string])
      .filter(([a, b]) => a < b && arrows.has(`${b} ${a}`))
      .map(([a, b]) => `${a} <-> ${b}: neither can be read alone; move what both need into a third`);
    expect(pairs).toEqual([]);
  });

  it("keeps each package behind its rooms", () => {
    const wrong = external.filter((item) => !(PACKAGES[item.name] ?? []).includes(item.from));
    expect(
      wrong.map(
        (item) => `${item.file} -> ${item.target}: use it through ${PACKAGES[item.name]?.join(" or ")}`,
      ),
    ).toEqual([]);
  });

  it("has no package permission that nothing uses", () => {
    const used = new Set(external.map((item) => `${item.name} ${item.from}`));
    const unused = Object.entries(PACKAGES).flatMap(([name, allowed]) =>
      allowed.map((room) => `${name} ${room}`).filter((permission) => !used.has(permission)),
    );
    expect(unused, "take what nothing uses out of PACKAGES").toEqual([]);
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
    expect(
      wrong.map((item) => `${item.file} -> ${item.target}: only ${DISK.join(" and ")} touch the disk`),
    ).toEqual([]);
  });
});
