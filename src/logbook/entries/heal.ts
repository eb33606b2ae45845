import {
  anyRecord,
  BOUND,
  boundBytes,
  boundContent,
  boundMarkState,
  ENTRIES,
  type FileStore,
  fileDigest,
  fileName,
  folderName,
  HEADER_FILE,
  headerMark,
  isRecordStem,
  type KeptFile,
  keepFile,
  keepMark,
  keepPart,
  keepRecordFile,
  type Logbook,
  markOfBound,
  markStem,
  PartShelf,
  readBound,
  readFolder,
  readScreen,
  readStrayRecord,
  removeMarkOf,
  removeMarks,
  screenPlaces,
  setAside,
  takeCensus,
  withStore,
} from "../medium/index.ts";
import { isBoundElsewhere } from "./file-checks.ts";
import { history } from "./history.ts";
import { type MergeOptions, type MergeReport, mergeLogbook } from "./merge.ts";

/** What a logbook got back from another copy. */
export interface HealReport extends MergeReport {
  /** Files brought over byte for byte. */
  readonly filesRestored: readonly string[];
  /** Records taken in from files with a foreign name. */
  readonly straysTakenIn: readonly string[];
  /** Damaged files set aside, since all that they held is whole elsewhere. */
  readonly filesSetAside: readonly string[];
  /** Bound files that were lost and that nobody misses any more: all their records are here again. */
  readonly boundFilesSettled: readonly string[];
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
      boundFilesSettled: settleBoundFiles(store),
      marksSet: setMarks(store),
    };
  });
}

const NOTHING_MERGED: MergeReport = {
  entriesAdded: 0,
  withdrawalsAdded: 0,
  signaturesAdded: 0,
  findings: [],
  notes: [],
  forks: [],
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
  const ours = new PartShelf(logbook.store);
  const theirs = new PartShelf(from.store);
  const wanted = new Set(
    history(logbook)
      .items.flatMap(({ entry }) => entry.attachments ?? [])
      .map(({ sha256 }) => sha256),
  );
  for (const sha256 of wanted) {
    if (ours.has(sha256)) continue;
    const bytes = theirs.read(sha256);
    if (bytes !== undefined) keepPart(logbook.store, bytes);
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
          ? isWholeElsewhere(store, file)
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
function isWholeElsewhere(store: FileStore, file: KeptFile): boolean {
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

/**
 * A bound file that is gone leaves its mark. The mark goes when it lists records that are all here again, or, where it lists
 * none, as in logbooks of format 1.0, the file is written anew when binding the site gives just the bytes that it had.
 */
function settleBoundFiles(store: FileStore): readonly string[] {
  const { marks, folders } = takeCensus(store);
  const here = new Set((folders.get(BOUND) ?? []).map((name) => `${BOUND}/${markStem(BOUND, name)}`));
  const settled: string[] = [];
  for (const mark of marks) {
    if (!mark.startsWith(`${BOUND}/`) || here.has(mark)) continue;
    if (isBoundElsewhere(store, mark)) removeMarkOf(store, mark);
    else if (!bindAgain(store, mark)) continue;
    settled.push(mark);
  }
  return settled;
}

function bindAgain(store: FileStore, mark: string): boolean {
  const [site = "", digest = ""] = mark.slice(BOUND.length + 1).split(".");
  const screens = screenPlaces(store)
    .filter((place) => place.site === site)
    .map((place) => readScreen(store, place));
  const siteId = screens.map((records) => anyRecord(records)?.siteId).find((id) => id !== undefined);
  if (siteId === undefined) return false;
  const bytes = boundBytes(boundContent(store, siteId, screens));
  if (fileDigest(bytes) !== digest) return false;
  keepFile(store, BOUND, fileName(site, bytes), bytes);
  return true;
}

function setMarks(store: FileStore): number {
  let set = 0;
  const { folders, marks } = takeCensus(store);
  if (![...marks].some((mark) => mark.startsWith(`${HEADER_FILE}.`))) {
    keepMark(store, "", headerMark(store.read(HEADER_FILE)));
    set += 1;
  }
  for (const folder of folders.keys()) {
    for (const { path, bytes } of readFolder(store, folder).files) {
      const stem = markStem(folder, path.slice(folder.length + 1));
      const isMarked = marks.has(`${folder}/${stem}`);
      if (isMarked && !(folder === BOUND && boundMarkState(store, stem) === "damaged")) continue;
      if (isMarked) removeMarkOf(store, `${folder}/${stem}`);
      keepMark(store, folder, stem, folder === BOUND ? markOfBound(bytes) : undefined);
      set += 1;
    }
  }
  return set;
}
