import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { folderStore, history, openLogbook } from "../../src/logbook/entries/index.ts";
import { type CommandResult, runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "../../samples");
const root = mkdtempSync(join(tmpdir(), "acting-characters-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** Control sequences, overrides and isolates of direction, tags, separators, a mark in the middle: one text for all. */
const HOSTILE = "L\u009b2J\u202e\u2066\u200b\u2028\ufeff\u{e0041}\u00ad\u0007\u001b[31mR";
/** Written out once more, so that this test does not lean on the code that it tests. */
const ACTING =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: this is what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2064\u2066-\u206f\u{e0000}-\u{e007f}]|.\ufeff|\r(?!\n)/u;

const SCREEN = ["--site", "lantern-mill", "--screen", "screen-1"];
const BY = ["--by", HOSTILE, "--at", "2026-11-02T23:15:00+01:00"];
const run = (...args: readonly string[]) => runCommand(args, { cwd: root });

/** Every text of a document that people choose, in hostile words. */
function hostile(value: unknown, name = "", around = ""): unknown {
  if (Array.isArray(value)) return value.map((item) => hostile(item, name));
  if (typeof value === "object" && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, hostile(item, key, name)]));
  }
  // The labels of channels are those of the trade.
  if (around === "channels" && name === "label") return value;
  return ["label", "notes", "siteName", "screenName", "reason"].includes(name) ? HOSTILE : value;
}

function copy(from: string, to: string, change: (value: unknown) => unknown = hostile): void {
  const document = change(JSON.parse(readFileSync(join(samples, from), "utf8")));
  writeFileSync(join(root, to), JSON.stringify(document));
}

let entryId = "";

beforeAll(async () => {
  mkdirSync(join(root, "profiles"));
  for (const name of ["skarn-30", "skarn-36"]) copy(`profiles/${name}.json`, `profiles/${name}.json`);
  copy("screens/lantern-mill/screen-1.json", "screen.json");
  copy("screens/lantern-mill/screen-1.json", "plain.json", (value) => value);
  copy("standards/house-71-1.1.0.json", "standard.json");
  copy("maps/skarn-30.json", "map.json");
  writeFileSync(join(root, "export.xml"), readFileSync(join(samples, "exports/lantern-mill-1.xml")));
  for (const args of [
    ["begin", "book"],
    [
      "record",
      "book",
      "screen.json",
      "--reason",
      "as-left",
      ...BY,
      "--notes",
      HOSTILE,
      "--attach",
      "plain.json",
    ],
    ["record", "book", "plain.json", "--reason", "as-found", ...BY],
  ]) {
    const { code, err } = await run(...args);
    expect([code, err]).toEqual([0, ""]);
  }
  entryId = history(openLogbook(folderStore(join(root, "book")))).items[0]!.id;
});

/** Commands whose `--json` is asked for with hostile documents; files that are written get new names each time. */
const COMMANDS: readonly (readonly [name: string, args: (out: string) => readonly string[]])[] = [
  ["validate", () => ["validate", "screen.json"]],
  ["validate a logbook", () => ["validate", "book"]],
  ["validate what is missing", () => ["validate", `missing${HOSTILE}.json`]],
  ["compare", () => ["compare", "plain.json", "screen.json"]],
  ["history", () => ["history", "book"]],
  ["show", () => ["show", "book", entryId]],
  ["find", () => ["find", "book", "label"]],
  ["verify", () => ["verify", "book"]],
  ["bind", () => ["bind", "book"]],
  ["policy", () => ["policy", "book"]],
  ["copy-out", (out) => ["copy-out", "book", out]],
  ["merge", () => ["merge", "book", "book"]],
  ["pack", (out) => ["pack", "book", ...SCREEN, "--entry", entryId, "--attachments", "--out", `${out}.zip`]],
  ["restore", (out) => ["restore", "book", ...SCREEN, "--out", `${out}.json`]],
  ["visit", () => ["visit", "book", ...SCREEN, "--found", "screen.json"]],
  [
    "audit",
    (out) => ["audit", "book", "--out", `${out}.json`, "--csv", `${out}.csv`, "--html", `${out}.html`],
  ],
  ["drift", (out) => ["drift", "standard.json", "book", "--csv", `${out}.csv`, "--html", `${out}.html`]],
  ["handover-sheet", () => ["handover-sheet", "screen.json"]],
  ["entry-sheet", () => ["entry-sheet", "screen.json"]],
  ["match-paper", () => ["match-paper", "book", `boothkeep paper 1: ${HOSTILE}`]],
  ["migrate", (out) => ["migrate", "screen.json", "--to", "skarn-36", "--plan", `${out}.json`]],
  ["read", () => ["read", "--map", "map.json", "--base", "screen.json", "export.xml", "--out", "read.json"]],
  ["table write", (out) => ["table", "write", "screen.json", "--out", `${out}.csv`]],
  ["rules", () => ["rules"]],
  ["an unknown option", () => ["validate", `--${HOSTILE}`]],
  ["an unknown command", () => [HOSTILE]],
  ["withdraw", () => ["withdraw", "book", entryId, "--reason", HOSTILE, ...BY]],
];

describe.each(COMMANDS)("%s", (name, argsFor) => {
  const results: CommandResult[] = [];

  it.each([["for people"], ["as JSON"]])("prints nothing that acts, %s", async (how) => {
    const args = argsFor(`${name.replaceAll(" ", "-")}-${how.replace(" ", "-")}`);
    const result = await run(...args, ...(how === "as JSON" ? ["--json"] : []));
    results.push(result);
    for (const [where, text] of Object.entries({ out: result.out, err: result.err })) {
      expect([where, ACTING.exec(text)?.[0]]).toEqual([where, undefined]);
    }
    expect(result.out + result.err).not.toBe("");
  });

  it("gives JSON that holds the texts as they are", () => {
    const { out, err } = results.at(-1)!;
    const text = out === "" ? err : out;
    expect(() => JSON.parse(text) as unknown).not.toThrow();
    const shown = JSON.stringify(JSON.parse(text));
    if (/\\u009b/.test(text)) expect(shown).toContain(HOSTILE.slice(1, 3));
    expect(shown).not.toContain("[U+009B]");
  });
});

describe("files that were written", () => {
  it("hold nothing that acts", () => {
    const ours = new Set([
      "profiles",
      "book",
      "screen.json",
      "plain.json",
      "standard.json",
      "map.json",
      "export.xml",
    ]);
    const written = readdirSync(root, { recursive: true, encoding: "utf8" }).filter(
      (file) =>
        !ours.has(file.split(/[\\/]/)[0]!) &&
        /\.(json|csv|html|md|txt)$/.test(file) &&
        statSync(join(root, file)).isFile(),
    );
    expect(written.length).toBeGreaterThan(8);
    // A copied logbook keeps its records as they are, byte for byte.
    const texts = written.filter((file) => !file.startsWith("copy-out"));
    for (const file of texts) {
      expect([file, ACTING.exec(readFileSync(join(root, file), "utf8"))?.[0]]).toEqual([file, undefined]);
    }
  });
});
