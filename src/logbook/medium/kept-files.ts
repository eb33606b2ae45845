import type { Sha256 } from "../../base/canonical/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import { type FileStore, faultCode, UNFINISHED } from "./file-store.ts";
import { unpackLines } from "./gzip-lines.ts";
import { fileDigest, folderName, parseFileName } from "./layout.ts";
import { logbookFinding } from "./logbook-findings.ts";
import { type Line, readLine } from "./records.ts";

/** A file of the logbook whose bytes are those that its name vouches for. */
export interface KeptFile {
  readonly path: string;
  readonly stem: string;
  /** What its name says of its bytes. */
  readonly digest: string;
  readonly bytes: Uint8Array;
}

/** The files of a folder, as far as they can be trusted. */
export interface FolderReading {
  readonly files: readonly KeptFile[];
  /** Files with other bytes than their name vouches for. */
  readonly damaged: readonly KeptFile[];
  /** Files that the medium does not give, and names that something else than a file has. */
  readonly unreadable: readonly Omit<KeptFile, "bytes">[];
  /** Stems of names that belong to the logbook, whether their files can be trusted or not. */
  readonly stems: readonly string[];
  readonly findings: readonly Finding[];
}

/** Reads the files of a folder whose stem is wanted. What cannot be trusted becomes a finding. */
export function readFolder(
  store: FileStore,
  folder: string,
  wanted?: (stem: string) => boolean,
): FolderReading {
  return readSteadily(() => readFolderOnce(store, folder, wanted));
}

/** As {@link readFolder}; throws ENOENT when a file was taken away after it was listed. */
export function readFolderOnce(
  store: FileStore,
  folder: string,
  wanted: (stem: string) => boolean = () => true,
): FolderReading {
  const files: KeptFile[] = [];
  const damaged: KeptFile[] = [];
  const unreadable: Omit<KeptFile, "bytes">[] = [];
  const stems = new Set<string>();
  const findings: Finding[] = [];
  for (const { name, kind } of store.list(folder)) {
    const path = `${folder}/${name}`;
    const parsed = kind === "folder" ? undefined : parseFileName(name);
    if (parsed === undefined) {
      if (!UNFINISHED.test(name)) findings.push(logbookFinding("logbook/foreign-file", path));
      continue;
    }
    if (!wanted(parsed.stem)) continue;
    stems.add(parsed.stem);
    const bytes = kind === "file" ? readTolerantly(store, path) : undefined;
    if (bytes === undefined) {
      unreadable.push({ path, ...parsed });
      findings.push(logbookFinding("logbook/unreadable-file", path));
    } else if (fileDigest(bytes) === parsed.digest) {
      files.push({ path, ...parsed, bytes });
    } else {
      damaged.push({ path, ...parsed, bytes });
      findings.push(logbookFinding("logbook/damaged-file", path));
    }
  }
  return { files, damaged, unreadable, stems: [...stems], findings };
}

const READING_ATTEMPTS = 40;
const LONGEST_PAUSE_MS = 50;

/**
 * Reads from a store in which a concurrent binding may take files away between listing and reading: then what they
 * held is in a bound file, and reading starts over. It waits a little longer each time, since whoever starts over at once
 * meets the next file just as that is taken away, and so on through the whole folder.
 */
export function readSteadily<T>(read: () => T): T {
  for (let attempt = 1; ; attempt += 1) {
    try {
      return read();
    } catch (error) {
      if (faultCode(error) !== "ENOENT" || attempt === READING_ATTEMPTS) throw error;
      pause(Math.min(2 ** (attempt - 1), LONGEST_PAUSE_MS));
    }
  }
}

/** Waits without giving way to anything else of this thread: reading a logbook is synchronous. */
function pause(ms: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT)), 0, 0, ms);
}

/**
 * A file's bytes; undefined when the medium does not give them. A file that a concurrent binding took away ends the
 * reading, which starts over (see {@link readSteadily}).
 */
export function readTolerantly(store: FileStore, path: string): Uint8Array | undefined {
  try {
    return store.read(path);
  } catch (error) {
    if (faultCode(error) === "ENOENT" || faultCode(error) === "") throw error;
    return undefined;
  }
}

/** The lines of a record's file, or why it is passed over. */
export function readRecordFile(
  file: KeptFile,
  siteFolder: string,
  screen: string,
): readonly Line[] | Finding {
  const lines = readLines(unpackLines(file.bytes));
  const first = lines?.[0];
  if (lines === undefined || first?.kind !== "record" || first.item.id !== file.stem) {
    return logbookFinding("logbook/not-understood", file.path);
  }
  return belongsTo(lines, siteFolder, screen) ? lines : logbookFinding("logbook/misplaced-file", file.path);
}

/** Every line understood, or undefined. */
export function readLines(texts: readonly string[] | undefined): readonly Line[] | undefined {
  const lines = texts?.map(readLine);
  return lines?.every((line) => line !== undefined) ? (lines as readonly Line[]) : undefined;
}

/** Whether all records among the lines belong to the screen with these folder names. */
export function belongsTo(lines: readonly Line[], site: string, screen: string): boolean {
  return lines.every(
    (line) =>
      line.kind === "configuration" ||
      (folderName(line.item.record.siteId) === site && folderName(line.item.record.screenId) === screen),
  );
}

/** Whether the stem of a file's name is the id of a record. */
export function isRecordStem(stem: string): stem is Sha256 {
  return /^[0-9a-f]{64}$/.test(stem);
}
