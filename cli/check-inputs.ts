import { readdirSync, statSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { BoothkeepError, type UnitProfile } from "../src/public/boothkeep.ts";
import type { Context } from "./context.ts";
import { readInput } from "./files.ts";
import { isLogbook } from "./is-logbook.ts";
import { readPackFile } from "./pack-file.ts";
import { sayNotes } from "./say-notes.ts";

/** One document to check, wherever it was kept. */
export interface CheckInput {
  /** As told to the user: the file as named, or the logbook and its entry. */
  readonly name: string;
  readonly content: Uint8Array | string;
  /** The file beside which unit profiles are looked for. */
  readonly near: string;
  /** The profile that came with it, in a pack. */
  readonly profile?: UnitProfile;
  /** True: found in a folder, so a file of another kind is passed over. */
  readonly found: boolean;
}

/**
 * The documents behind what a user names: a file, a pack, a folder with all that is in it, or a logbook with the latest
 * entry of each of its screens. They are read one after the other, when they are asked for.
 *
 * @throws BoothkeepError input.*, pack.*, logbook.*
 */
export async function* checkInputs(name: string, context: Context): AsyncIterable<CheckInput> {
  const path = resolve(context.cwd, name);
  if (isFolder(path)) yield* folderInputs(name, context);
  else yield* fileInput(name, context, { found: false });
}

async function* folderInputs(folder: string, context: Context): AsyncIterable<CheckInput> {
  const path = resolve(context.cwd, folder);
  if (isLogbook(path)) {
    yield* logbookInputs(folder, path, context);
    return;
  }
  for (const child of childrenOf(path)) {
    const name = join(folder, child);
    if (isFolder(join(path, child))) yield* folderInputs(name, context);
    else yield* fileInput(name, context, { found: true });
  }
}

async function* fileInput(
  name: string,
  context: Context,
  { found }: { readonly found: boolean },
): AsyncIterable<CheckInput> {
  const content = readInput(name, context.cwd);
  const isZip = content[0] === 0x50 && content[1] === 0x4b;
  if (!isZip) {
    yield { name, content, near: name, found };
    return;
  }
  try {
    const { readProfile } = await import("../src/public/boothkeep.ts");
    const pack = await readPackFile(name, context);
    const profile = readProfile(JSON.stringify(pack.profile)).document;
    yield { name, content: JSON.stringify(pack.configuration), near: name, profile, found };
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file: name }) : error;
  }
}

async function* logbookInputs(folder: string, path: string, context: Context): AsyncIterable<CheckInput> {
  const { folderStore, history, openLogbook, readEntry } = await import("../src/public/boothkeep.ts");
  const logbook = openLogbook(folderStore(path));
  const { items, notes, unlistedSites, findings } = history(logbook);
  const refused: string[] = [];
  for (const { id, entry, isLatest, withdrawals, standing } of items) {
    if (!isLatest || withdrawals.length > 0) continue;
    const { siteId, screenId } = entry;
    const name = `${folder} ${siteId}/${screenId} ${id.slice(0, 12)}`;
    if (standing.refusal !== undefined) refused.push(standing.refusal.words);
    const { canonicalText } = readEntry(logbook, { id, siteId, screenId });
    yield { name, content: canonicalText, near: folder, found: true };
  }
  sayNotes({ notes, unlistedSites }, context);
  const untrusted = findings.filter(({ severity }) => severity === "error").length + refused.length;
  if (untrusted === 0) return;
  throw new BoothkeepError(
    "logbook.damaged-records",
    refused[0] ?? `${untrusted} ${untrusted === 1 ? "record" : "records"} of the logbook cannot be trusted.`,
    {
      place: { file: folder },
      next: "'boothkeep verify' names them; what was checked comes from the others.",
    },
  );
}

/** Files and folders of a folder that can hold documents, in the order of their names. */
function childrenOf(path: string): readonly string[] {
  return readdirSync(path, { withFileTypes: true })
    .filter((item) => {
      if (item.name.startsWith(".") || item.name === "node_modules") return false;
      return item.isDirectory() || /\.(json|zip)$/i.test(item.name);
    })
    .map((item) => item.name)
    .sort((a, b) => (a < b ? -1 : 1));
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}

/** The folder of a file, by which profiles that were looked up are remembered. */
export function folderOfInput(near: string, context: Context): string {
  return dirname(resolve(context.cwd, near));
}
