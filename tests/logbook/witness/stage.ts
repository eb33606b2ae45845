import { cpSync, mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { canonicalHash } from "../../../src/base/canonical/index.ts";
import { createLogbook, folderStore } from "../../../src/logbook/entries/index.ts";
import { imprintText } from "../../../src/logbook/imprint/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { runCommand } from "../../cli/run-command.ts";
import {
  configurationOf,
  firstConfiguration,
  OTHER_SCREEN,
  SCREEN,
  SITE,
  type SoundBook,
  soundBook,
  VARIANTS,
  type Variant,
} from "./books.ts";

/** Sound logbooks, and what commands need beside one. */
export interface Stage {
  readonly root: string;
  readonly first: Configuration;
  readonly books: ReadonlyMap<Variant, SoundBook>;
}

/** Makes the sound logbooks in a fresh folder. */
export async function setStage(): Promise<Stage> {
  const root = mkdtempSync(join(tmpdir(), "witness-"));
  const first = await firstConfiguration(join(root, "first"));
  const books = new Map(
    VARIANTS.map((variant) => [variant, soundBook(variant, first, join(root, variant))] as const),
  );
  const stage = { root, first, books };
  // A house standard that every screen follows.
  const screens = ["a", "b"].map((name) => {
    const file = `${name}.json`;
    const own = configurationOf(first, { screen: name === "a" ? SCREEN : OTHER_SCREEN });
    writeFileSync(join(root, file), JSON.stringify(own));
    return file;
  });
  const derive = ["standard", "derive", ...screens, "--out", "standard.json"];
  const named = ["--id", "house", "--title", "House", "--by", "Head office"];
  const { err } = await runCommand([...derive, ...named], { cwd: root });
  if (err !== "") throw new Error(err);
  // To merge into.
  createLogbook(folderStore(join(root, "into")), {
    id: "7c9e6679-7425-40de-944b-e07fc1f90ae9",
    startedAt: "2026-08-31T09:00:00+02:00",
  });
  return stage;
}

/** A folder to run a command in, with all that a command needs, and a copy of a logbook as `book` if one is asked for. */
export function desk({ root, books }: Stage, name: string, variant?: Variant): string {
  const cwd = join(root, name);
  mkdirSync(cwd);
  cpSync(join(root, "into"), join(cwd, "into"), { recursive: true });
  if (variant === undefined) return cwd;
  const { folder, configuration } = books.get(variant)!;
  cpSync(folder, join(cwd, "book"), { recursive: true });
  cpSync(join(root, "standard.json"), join(cwd, "standard.json"));
  writeFileSync(join(cwd, "found.json"), JSON.stringify(configuration));
  return cwd;
}

/** What the code on a sheet of the entry as left holds. */
export function paperOf({ entryId, configuration }: SoundBook): string {
  return imprintText({
    siteId: SITE,
    screenId: SCREEN,
    entry: { number: 3, id: entryId },
    settingsSha256: canonicalHash(configuration),
  });
}
