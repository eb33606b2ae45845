import type { FileStore } from "./file-store.ts";
import { unpackLines } from "./gzip-lines.ts";
import { belongsTo, readLines } from "./kept-files.ts";
import { ENTRIES } from "./layout.ts";
import type { IdentifiedRecord, Line } from "./records.ts";

/** A record of a screen that lies in the screen's folder under a name that is not its own. */
export interface StrayRecord {
  readonly item: IdentifiedRecord;
  readonly lines: readonly Line[];
  readonly place: { readonly site: string; readonly screen: string };
}

/**
 * The record that a file with a foreign name holds: sync clients rename files when two computers wrote at once. Such
 * files are never read as truth; a healing may take the record in.
 */
export function readStrayRecord(store: FileStore, path: string): StrayRecord | undefined {
  const [top, site, screen, name, ...more] = path.split("/");
  if (
    top !== ENTRIES ||
    site === undefined ||
    screen === undefined ||
    name === undefined ||
    more.length > 0
  ) {
    return undefined;
  }
  const lines = readLines(linesOf(store, path));
  const first = lines?.[0];
  if (lines === undefined || first?.kind !== "record" || !belongsTo(lines, site, screen)) return undefined;
  return { item: first.item, lines, place: { site, screen } };
}

function linesOf(store: FileStore, path: string): readonly string[] | undefined {
  try {
    return unpackLines(store.read(path));
  } catch {
    // A folder, or gone by now.
    return undefined;
  }
}
