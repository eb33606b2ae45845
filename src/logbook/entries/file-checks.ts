import type { Finding } from "../../base/findings/index.ts";
import {
  BOUND,
  boundMarkState,
  ENTRIES,
  type FileCensus,
  type FileStore,
  faultCode,
  fileDigest,
  HEADER_FILE,
  headerMark,
  logbookFinding,
  markStem,
  parseFileName,
  REGISTER,
  readBoundMark,
  readScreen,
  readStrayRecord,
  readTolerantly,
  registerPlace,
} from "../medium/index.ts";

/** How many files were looked at. */
export interface FilesChecked {
  readonly listed: number;
  readonly checked: number;
  readonly damaged: number;
}

/** Checks that every file is there, has the bytes that its name vouches for, and that nothing else is there. */
export function checkFiles(
  store: FileStore,
  census: FileCensus,
  chosen: () => boolean,
): { readonly counts: FilesChecked; readonly findings: readonly Finding[] } {
  const findings: Finding[] = [];
  let listed = 0;
  let checked = 0;
  for (const [folder, names] of census.folders) {
    for (const name of names) {
      listed += 1;
      if (!chosen()) continue;
      checked += 1;
      findings.push(...checkBytes(store, `${folder}/${name}`, parseFileName(name)!.digest));
    }
  }
  const damaged = findings.length;
  findings.push(...checkHeader(store, census), ...checkRegister(store, census));
  findings.push(...census.strangers.map((path) => strangerFinding(store, census, path)));
  findings.push(...census.unfinished.map((path) => logbookFinding("logbook/unfinished-file", path)));
  return { counts: { listed, checked, damaged }, findings };
}

function checkBytes(store: FileStore, path: string, digest: string): Finding[] {
  let bytes: Uint8Array | undefined;
  try {
    bytes = readTolerantly(store, path);
  } catch (error) {
    // A binding took it away since it was listed; the register is asked later.
    if (faultCode(error) === "ENOENT") return [];
    throw error;
  }
  if (bytes === undefined) return [logbookFinding("logbook/unreadable-file", path)];
  return fileDigest(bytes) === digest ? [] : [logbookFinding("logbook/damaged-file", path)];
}

function checkHeader(store: FileStore, census: FileCensus): Finding[] {
  const marks = [...census.marks].filter((mark) => mark.startsWith(`${HEADER_FILE}.`));
  const expected = headerMark(store.read(HEADER_FILE));
  if (marks.includes(expected)) return [];
  return [
    marks.length === 0
      ? logbookFinding("logbook/unmarked-file", HEADER_FILE)
      : logbookFinding("logbook/damaged-file", HEADER_FILE),
  ];
}

function checkRegister(store: FileStore, census: FileCensus): Finding[] {
  const present = new Set<string>();
  const findings: Finding[] = [];
  for (const [folder, names] of census.folders) {
    for (const name of names) {
      const mark = `${folder}/${markStem(folder, name)}`;
      present.add(mark);
      if (!census.marks.has(mark))
        findings.push(logbookFinding("logbook/unmarked-file", `${folder}/${name}`));
    }
  }
  for (const mark of census.marks) {
    if (!mark.startsWith(`${BOUND}/`)) continue;
    const state = boundMarkState(store, splitPath(mark)[1]);
    if (state === "damaged") findings.push(logbookFinding("logbook/damaged-mark", `${REGISTER}/${mark}`));
    if (state === "unreadable")
      findings.push(logbookFinding("logbook/unreadable-file", `${REGISTER}/${mark}`));
  }
  const inBoundFile = boundRecords(store);
  for (const mark of census.marks) {
    if (present.has(mark) || mark.startsWith(`${HEADER_FILE}.`)) continue;
    if (!isStillMarked(store, mark) || hasComeSince(store, mark) || inBoundFile(mark)) continue;
    if (isBoundElsewhere(store, mark)) continue;
    findings.push(logbookFinding("logbook/missing-file", mark));
  }
  return findings;
}

/** A binding may have taken the mark away since the census. */
function isStillMarked(store: FileStore, mark: string): boolean {
  const [folder, stem] = splitPath(mark);
  const place = registerPlace(folder);
  return store.list(place.folder).some(({ name }) => name === `${place.prefix}${stem}`);
}

/** A file may have been written since the census, which lists files before marks. */
function hasComeSince(store: FileStore, mark: string): boolean {
  const [folder, stem] = splitPath(mark);
  return store
    .list(folder)
    .some(({ name }) => parseFileName(name) !== undefined && markStem(folder, name) === stem);
}

function splitPath(path: string): readonly [folder: string, name: string] {
  const slash = path.lastIndexOf("/");
  return [path.slice(0, Math.max(0, slash)), path.slice(slash + 1)];
}

/** Whether the record of a mark, whose own file is gone, is in a bound file of its site. */
function boundRecords(store: FileStore): (mark: string) => boolean {
  const known = new Map<string, ReadonlySet<string>>();
  return (mark) => {
    const [top, site, screen, id] = mark.split("/");
    if (top !== ENTRIES || site === undefined || screen === undefined || id === undefined) return false;
    const key = `${site}/${screen}`;
    const ids = known.get(key) ?? new Set(readScreen(store, { site, screen }).lines.keys());
    known.set(key, ids);
    return ids.has(id);
  };
}

/** Whether a mark of a bound file that is gone lists its records, and all of them are in other files. */
export function isBoundElsewhere(store: FileStore, mark: string): boolean {
  const [folder, name] = splitPath(mark);
  const records = folder === BOUND ? readBoundMark(store, name) : undefined;
  if (records === undefined) return false;
  const site = name.split(".")[0]!;
  const screens = new Map<string, readonly string[]>();
  return records.every(({ screen, id }) => {
    const ids = screens.get(screen) ?? [...readScreen(store, { site, screen }).lines.keys()];
    screens.set(screen, ids);
    return ids.some((own) => own.startsWith(id));
  });
}

function strangerFinding(store: FileStore, census: FileCensus, path: string): Finding {
  const [folder] = splitPath(path);
  const siblings = (census.folders.get(folder) ?? []).map((name) => parseFileName(name)!);
  if (siblings.length > 0) {
    const bytes = readFileOrNothing(store, path);
    const digest = bytes === undefined ? undefined : fileDigest(bytes);
    if (siblings.some((sibling) => sibling.digest === digest)) {
      return logbookFinding("logbook/renamed-copy", path);
    }
  }
  const stray = readStrayRecord(store, path);
  if (stray === undefined) return logbookFinding("logbook/foreign-file", path);
  const isHere = readScreen(store, stray.place).lines.has(stray.item.id);
  return logbookFinding(isHere ? "logbook/renamed-copy" : "logbook/stray-record", path);
}

/** A stranger may be a folder, or gone by now. */
function readFileOrNothing(store: FileStore, path: string): Uint8Array | undefined {
  try {
    return store.read(path);
  } catch {
    return undefined;
  }
}
