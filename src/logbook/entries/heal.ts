import { readBound } from "./bound-file.ts";
import { keepFile, keepMark, removeMarks, setAside } from "./durable-file.ts";
import { withStore } from "./faults.ts";
import { takeCensus } from "./file-census.ts";
import type { FileStore } from "./file-store.ts";
import { history } from "./history.ts";
import { isRecordStem, type KeptFile, readFolder } from "./kept-files.ts";
import { BOUND, ENTRIES, folderName, HEADER_FILE, headerMark, markStem } from "./layout.ts";
import type { Logbook } from "./logbook.ts";
import { type MergeOptions, type MergeReport, mergeLogbook } from "./merge.ts";
import { readAttachment } from "./read-entry.ts";
import { keepPart, keepRecordFile } from "./record.ts";
import { readScreen } from "./screen-records.ts";
import { readStrayRecord } from "./stray-records.ts";

export interface HealReport extends MergeReport {
  /** Files brought over byte for byte. */
  readonly filesRestored: readonly string[];
  /** Records taken in from files with a foreign name. */
  readonly straysTakenIn: readonly string[];
  /** Damaged files set aside, since all that they held is whole elsewhere. */
  readonly filesSetAside: readonly string[];
  /** Files that the register had no mark for and has one now. */
  readonly marksSet: number;
}

/**
 * Heals a logbook from another copy, or, without one, from itself: what is damaged or missing here and whole there
 * is brought over, damaged files are set aside (never deleted), records under foreign names are taken in, missing
 * marks are set. What the other one has besides is merged in too.
 *
 * @throws BoothkeepError output.no-space, output.read-only, input.no-permission, output.failed
 */
export function healLogbook(
  logbook: Logbook,
  from: Logbook | undefined,
  options: MergeOptions = {},
): HealReport {
  const { store } = logbook;
  return withStore(store, "", () => {
    const filesRestored = from === undefined ? [] : restoreFiles(store, from.store);
    const straysTakenIn = takeInStrays(store);
    const merged = from === undefined ? NOTHING_MERGED : mergeLogbook(logbook, from, options);
    if (from !== undefined) restoreAttachments(logbook, from);
    return {
      ...merged,
      filesRestored,
      straysTakenIn,
      filesSetAside: setAsideReplaced(store),
      marksSet: setMarks(store),
    };
  });
}

const NOTHING_MERGED: MergeReport = {
  entriesAdded: 0,
  withdrawalsAdded: 0,
  signaturesAdded: 0,
  findings: [],
};

/** Files that are damaged or missing here and whole there, under the same name. */
function restoreFiles(store: FileStore, other: FileStore): readonly string[] {
  const restored: string[] = [];
  const marks = takeCensus(store).marks;
  for (const folder of takeCensus(other).folders.keys()) {
    const ours = readFolder(store, folder);
    const whole = new Set(ours.files.map((file) => file.path));
    const damaged = new Set(ours.damaged.map((file) => file.path));
    for (const { path, stem, bytes } of readFolder(other, folder).files) {
      const name = path.slice(folder.length + 1);
      const isLost =
        damaged.has(path) || (marks.has(`${folder}/${markStem(folder, name)}`) && !ours.stems.includes(stem));
      if (whole.has(path) || !isLost) continue;
      keepFile(store, folder, name, bytes);
      restored.push(path);
    }
  }
  return restored;
}

function takeInStrays(store: FileStore): readonly string[] {
  const taken: string[] = [];
  for (const path of takeCensus(store).strangers) {
    const stray = readStrayRecord(store, path);
    if (stray === undefined || readScreen(store, stray.place).lines.has(stray.item.id)) continue;
    keepRecordFile(
      store,
      stray.item.record,
      stray.lines.map((line) => line.text),
    );
    taken.push(path);
  }
  return taken;
}

function restoreAttachments(logbook: Logbook, from: Logbook): void {
  for (const { entry } of history(logbook).items) {
    for (const { sha256 } of entry.attachments ?? []) {
      if (tryAttachment(logbook, sha256) !== undefined) continue;
      const bytes = tryAttachment(from, sha256);
      if (bytes !== undefined) keepPart(logbook.store, bytes);
    }
  }
}

function tryAttachment(logbook: Logbook, sha256: string): Uint8Array | undefined {
  try {
    return readAttachment(logbook, sha256);
  } catch (error) {
    if ((error as { readonly code?: string }).code === "logbook.lost-attachment") return undefined;
    throw error;
  }
}

/** A damaged file may go when everything that it held is whole in other files. */
function setAsideReplaced(store: FileStore): readonly string[] {
  const gone: string[] = [];
  for (const folder of takeCensus(store).folders.keys()) {
    const { files, damaged } = readFolder(store, folder);
    for (const file of damaged) {
      const replaced = folder.startsWith(`${ENTRIES}/`)
        ? isRecordHere(store, folder, file.stem)
        : folder === BOUND
          ? isBoundElsewhere(store, file)
          : files.some((other) => other.stem === file.stem);
      if (!replaced) continue;
      // The mark of a bound file names its bytes; the marks of others name what they hold, which is still here.
      if (folder === BOUND) removeMarks(store, folder, [file.path.slice(folder.length + 1)]);
      setAside(store, file.path);
      gone.push(file.path);
    }
  }
  return gone;
}

function isRecordHere(store: FileStore, folder: string, stem: string): boolean {
  const [, site, screen] = folder.split("/");
  return isRecordStem(stem) && readScreen(store, { site: site!, screen: screen! }).lines.has(stem);
}

/** Whether every record that a damaged bound file lists is whole in its other members or in other files. */
function isBoundElsewhere(store: FileStore, file: KeptFile): boolean {
  const bound = readBound(file.bytes);
  if (bound === undefined) return false;
  return bound.index.members.every((member) => {
    if (member.screenId === undefined) return true;
    const place = { site: file.stem, screen: folderName(member.screenId) };
    const elsewhere = readScreen(store, place, { except: file.path });
    const ids = [...elsewhere.lines.keys()];
    return (member.records ?? []).every((start) => ids.some((id) => id.startsWith(start)));
  });
}

function setMarks(store: FileStore): number {
  let set = 0;
  const { folders, marks } = takeCensus(store);
  if (![...marks].some((mark) => mark.startsWith(`${HEADER_FILE}.`))) {
    keepMark(store, "", headerMark(store.read(HEADER_FILE)));
    set += 1;
  }
  for (const folder of folders.keys()) {
    for (const { path } of readFolder(store, folder).files) {
      const stem = markStem(folder, path.slice(folder.length + 1));
      if (marks.has(`${folder}/${stem}`)) continue;
      keepMark(store, folder, stem);
      set += 1;
    }
  }
  return set;
}
