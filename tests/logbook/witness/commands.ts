import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { canonicalText, sha256 } from "../../../src/base/canonical/index.ts";
import { type CommandResult, runCommand } from "../../cli/run-command.ts";
import { profiles, SCREEN, SITE } from "./books.ts";

/** What a command gets to work on, all in the folder that it runs in. */
export interface Desk {
  readonly cwd: string;
  /** What the code on a sheet of the entry as left holds. */
  readonly paper: string;
}

const ON_SCREEN = ["--site", SITE, "--screen", SCREEN];
const PROFILES = ["--profiles", profiles];
const AT = ["--at", "2026-11-02T22:15:00+00:00"];
const UNIT = ["--serial", "D16-132", "--firmware", "1.6.0"];

/** Every command that reads a logbook, by the name that the table has. The logbook is `book`. */
export const BOOK_COMMANDS = {
  restore: () => ["restore", "book", ...ON_SCREEN, ...UNIT, "--out", "load.json", "--json", ...PROFILES],
  history: () => ["history", "book"],
  "history --site": () => ["history", "book", "--site", SITE],
  show: () => ["show", "book", ...ON_SCREEN],
  find: () => ["find", "book", "gainDb"],
  pack: () => ["pack", "book", ...ON_SCREEN, "--out", "made.zip", ...AT, ...PROFILES],
  "handover-sheet": () => ["handover-sheet", "book", ...ON_SCREEN, ...PROFILES],
  "entry-sheet": () => ["entry-sheet", "book", ...ON_SCREEN, ...PROFILES],
  visit: () => ["visit", "book", ...ON_SCREEN, "--found", "found.json", ...PROFILES],
  "match-paper": ({ paper }) => ["match-paper", "book", paper],
  "copy-out": () => ["copy-out", "book", "copied", "--site", SITE],
  audit: () => ["audit", "book", "--json", ...PROFILES],
  drift: () => ["drift", "standard.json", "book", ...PROFILES],
  "standard derive": () => [
    ...["standard", "derive", "book", "--out", "derived.json"],
    ...["--id", "house", "--title", "House", "--by", "Head office"],
  ],
  "standard propose": () => [
    "standard",
    "propose",
    "standard.json",
    "book",
    "--out",
    "proposed",
    ...PROFILES,
  ],
  merge: () => ["merge", "into", "book"],
  verify: () => ["verify", "book", "--json"],
  validate: () => ["validate", "book", ...PROFILES],
} as const satisfies Record<string, (desk: Desk) => readonly string[]>;

export type BookCommand = keyof typeof BOOK_COMMANDS;

/** Every command that reads a pack, which is `pack.zip`. */
export const PACK_COMMANDS = {
  unpack: () => ["unpack", "pack.zip", "--out", "unpacked"],
  validate: () => ["validate", "pack.zip"],
  merge: () => ["merge", "into", "pack.zip"],
  heal: () => ["verify", "into", "--heal-from", "pack.zip"],
  "match-paper": ({ paper }) => ["match-paper", "pack.zip", paper],
  "handover-sheet": () => ["handover-sheet", "pack.zip"],
  "entry-sheet": () => ["entry-sheet", "pack.zip"],
} as const satisfies Record<string, (desk: Desk) => readonly string[]>;

export type PackCommand = keyof typeof PACK_COMMANDS;

/** Commands that take a configuration's file: a logbook or a pack in its place is refused, sound or not. */
export const FILE_COMMANDS = {
  "compare book": ["compare", "book", "found.json"],
  "compare pack": ["compare", "pack.zip", "found.json"],
  "migrate book": ["migrate", "book", "--to", "whimbrel-32", ...PROFILES],
  "migrate pack": ["migrate", "pack.zip", "--to", "whimbrel-32", ...PROFILES],
} as const;

export interface Answer extends CommandResult {
  /** SHA-256 of the settings that a restore wrote, its unit as it was recorded. */
  readonly loaded?: string;
}

export async function ask(args: readonly string[], cwd: string): Promise<Answer> {
  const result = await runCommand(args, { cwd });
  const loaded = join(cwd, "load.json");
  if (args[0] !== "restore" || !existsSync(loaded)) return result;
  return { ...result, loaded: sha256(canonicalText(JSON.parse(readFileSync(loaded, "utf8")))) };
}

/** All that was said, in one line: lines are broken where the terminal ends. */
export function saidBy({ out, err }: CommandResult): string {
  return `${err} ${out}`.replaceAll(/[│┃]/g, " ").replaceAll(/\s+/g, " ");
}
