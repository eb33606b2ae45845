import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fstatSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { BoothkeepError } from "../src/public/boothkeep.ts";

/** No document of ours is larger; a larger file is refused before a byte of it is read. */
export const MAX_FILE_BYTES = 32 * 1024 * 1024;

/**
 * Reads a whole file.
 * @throws BoothkeepError input.not-found, input.is-folder, input.no-permission, input.too-large
 */
export function readInput(file: string, cwd: string, maxBytes = MAX_FILE_BYTES): Uint8Array {
  let descriptor: number;
  try {
    descriptor = openSync(resolve(cwd, file), "r");
  } catch (error) {
    throw readError(error, file);
  }
  try {
    const stat = fstatSync(descriptor);
    if (stat.isDirectory()) throw folderError(file);
    if (stat.size > maxBytes) throw tooLarge(file, mebibytes(stat.size), maxBytes);
    return stat.isFile() ? readFileSync(descriptor) : readStream(descriptor, file, maxBytes);
  } catch (error) {
    throw error instanceof BoothkeepError ? error : readError(error, file);
  } finally {
    closeSync(descriptor);
  }
}

function tooLarge(file: string, size: string, maxBytes: number): BoothkeepError {
  return new BoothkeepError(
    "input.too-large",
    `'${file}' has ${size}; at most ${mebibytes(maxBytes)} are read.`,
    {
      place: { file },
      next: "Nothing was read. Name the file that holds the settings alone: a configuration has about 0.2 MiB, the export of a unit seldom more than 1 MiB.",
      data: { maxBytes },
    },
  );
}

function mebibytes(bytes: number): string {
  return `${Math.round((bytes / 1024 / 1024) * 10) / 10} MiB`;
}

const PIECE_BYTES = 64 * 1024;

/** A pipe does not say how much will come: read no further than allowed. */
function readStream(descriptor: number, file: string, maxBytes: number): Uint8Array {
  const pieces: Uint8Array[] = [];
  for (let total = 0; ; ) {
    const piece = new Uint8Array(PIECE_BYTES);
    const count = readSync(descriptor, piece);
    if (count === 0) return Buffer.concat(pieces);
    total += count;
    if (total > maxBytes) throw tooLarge(file, `more than ${mebibytes(maxBytes)}`, maxBytes);
    pieces.push(piece.subarray(0, count));
  }
}

/**
 * Writes a file that does not exist yet, flushed to the disk. Nothing is ever written over, and a file of that name is
 * there whole or not at all, even if the process is killed in the middle: what was begun bears another name (see
 * {@link removeUnfinished}).
 * @throws BoothkeepError output.exists, output.no-space, input.no-permission, output.failed
 */
export function writeNew(file: string, content: Uint8Array | string, cwd: string): void {
  const path = resolve(cwd, file);
  const begun = join(dirname(path), `~${basename(path)}.${process.pid}.tmp`);
  try {
    if (existsSync(path)) throw Object.assign(new Error(), { code: "EEXIST" });
    mkdirSync(dirname(path), { recursive: true });
    writeFlushed(begun, content);
    nameNew(begun, path);
  } catch (error) {
    throw writeError(error, file);
  } finally {
    rmSync(begun, { force: true });
  }
}

/** A file to write. */
export interface NewFile {
  readonly file: string;
  readonly content: string;
}

/**
 * Writes files that belong together: all of them or none; one that is there already with just this content counts. Nothing gets its name before everything is on the disk, and what
 * has got its name is taken back when a later one cannot have it. The last is named last: whoever finds it finds all.
 * @throws BoothkeepError as {@link writeNew}
 */
export function writeSet(files: readonly NewFile[], cwd: string): void {
  const isThere = ({ file, content }: NewFile) => {
    const path = resolve(cwd, file);
    return existsSync(path) && statSync(path).isFile() && readFileSync(path, "utf8") === content;
  };
  const begun = files
    .filter((file) => !isThere(file))
    .map(({ file, content }) => {
      const path = resolve(cwd, file);
      return { file, content, path, begun: join(dirname(path), `~${basename(path)}.${process.pid}.tmp`) };
    });
  refuseExisting(
    begun.map(({ file }) => file),
    cwd,
  );
  const named: string[] = [];
  let at = begun[0]?.file ?? "";
  try {
    for (const item of begun) {
      at = item.file;
      mkdirSync(dirname(item.path), { recursive: true });
      writeFlushed(item.begun, item.content);
    }
    for (const item of begun) {
      at = item.file;
      nameNew(item.begun, item.path);
      named.push(item.path);
    }
  } catch (error) {
    for (const path of named) rmSync(path, { force: true });
    throw writeError(error, at);
  } finally {
    for (const item of begun) rmSync(item.begun, { force: true });
  }
}

/**
 * Refuses before anything is computed what could not be written in the end: a file that exists, a folder that is none or
 * may not be written.
 * @throws BoothkeepError output.exists, input.no-permission, output.failed
 */
export function refuseExisting(files: readonly string[], cwd: string): void {
  const there = files.find((file) => existsSync(resolve(cwd, file)));
  if (there !== undefined) {
    throw new BoothkeepError("output.exists", `'${there}' exists; nothing is ever written over.`, {
      place: { file: there },
      next: "Give another name or folder, or move the old file away.",
    });
  }
  for (const file of files) {
    let folder = dirname(resolve(cwd, file));
    while (!existsSync(folder) && dirname(folder) !== folder) folder = dirname(folder);
    try {
      if (!statSync(folder).isDirectory()) throw Object.assign(new Error(), { code: "ENOTDIR" });
      accessSync(folder, constants.W_OK);
    } catch (error) {
      throw writeError(error, file);
    }
  }
}

/**
 * Writes a folder that does not exist yet, with plain files: it is there whole or not at all, as a file of {@link writeNew}.
 * @throws BoothkeepError as {@link writeNew}
 */
export function writeNewFolder(
  folder: string,
  files: readonly (readonly [name: string, content: Uint8Array | string])[],
  cwd: string,
): void {
  const path = resolve(cwd, folder);
  const begun = join(dirname(path), `~${basename(path)}.${process.pid}.tmp`);
  try {
    if (existsSync(path)) throw Object.assign(new Error(), { code: "EEXIST" });
    mkdirSync(dirname(path), { recursive: true });
    removeUnfinished(dirname(path));
    mkdirSync(begun);
    for (const [name, content] of files) writeFlushed(join(begun, name), content);
    // Some systems rename over an empty folder.
    if (existsSync(path)) throw Object.assign(new Error(), { code: "EEXIST" });
    renameSync(begun, path);
  } catch (error) {
    throw writeError(error, folder);
  } finally {
    rmSync(begun, { recursive: true, force: true });
  }
}

/**
 * The same as {@link writeNew}, but a file that is there already with just this content is left as it is.
 * @throws BoothkeepError as {@link writeNew}; output.exists when it holds something else
 */
export function writeOnce(file: string, content: string, cwd: string): void {
  const path = resolve(cwd, file);
  if (existsSync(path) && readFileSync(path, "utf8") === content) return;
  writeNew(file, content, cwd);
}

/** Takes away what killed processes left unfinished in a folder. */
export function removeUnfinished(folder: string): void {
  for (const name of existsSync(folder) ? readdirSync(folder) : []) {
    const pid = /^~.*\.(\d+)\.tmp$/.exec(name)?.[1];
    if (pid !== undefined && !isRunning(Number(pid))) {
      rmSync(join(folder, name), { recursive: true, force: true });
    }
  }
}

function writeFlushed(path: string, content: Uint8Array | string): void {
  const descriptor = openSync(path, "w");
  try {
    writeFileSync(descriptor, content);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** What systems answer whose disks know no second name for a file (memory cards, some network drives). */
const NO_LINKS: ReadonlySet<string> = new Set([
  "EPERM",
  "ENOTSUP",
  "EOPNOTSUPP",
  "ENOSYS",
  "EINVAL",
  "EMLINK",
]);

/** Gives a file its name unless there is one of that name: renaming alone would write over it. */
function nameNew(begun: string, path: string): void {
  try {
    linkSync(begun, path);
  } catch (error) {
    if (!NO_LINKS.has(codeOf(error))) throw error;
    if (existsSync(path)) throw Object.assign(new Error(), { code: "EEXIST" });
    renameSync(begun, path);
  }
}

/** A process that may not be signalled still runs. */
function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) !== "ESRCH";
  }
}

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? "";
}

function folderError(file: string): BoothkeepError {
  return new BoothkeepError("input.is-folder", `'${file}' is a folder; a file was expected.`, {
    place: { file },
    next: "Name a file inside it.",
  });
}

function permissionError(file: string, cause: unknown): BoothkeepError {
  return new BoothkeepError("input.no-permission", `The system does not allow access to '${file}'.`, {
    place: { file },
    next: "Check the permissions of the file and its folder, or copy it to a folder of your own.",
    cause,
  });
}

function readError(error: unknown, file: string): BoothkeepError {
  const code = codeOf(error);
  if (code === "ENOENT" || code === "ENOTDIR") {
    return new BoothkeepError("input.not-found", `There is no file '${file}'.`, {
      place: { file },
      next: "Check the name and the folder; relative names start from the folder you are in.",
      cause: error,
    });
  }
  if (code === "EISDIR") return folderError(file);
  if (code === "EACCES" || code === "EPERM") return permissionError(file, error);
  return new BoothkeepError(
    "input.unreadable",
    `'${file}' could not be read (${code || "unknown reason"}).`,
    {
      place: { file },
      next: "If it is on removable media or a network drive, copy it to this machine and try again.",
      cause: error,
    },
  );
}

function writeError(error: unknown, file: string): BoothkeepError {
  const code = codeOf(error);
  if (code === "EEXIST") {
    return new BoothkeepError("output.exists", `'${file}' exists; nothing is ever written over.`, {
      place: { file },
      next: "Give another name, or move the old file away.",
      cause: error,
    });
  }
  if (code === "ENOSPC" || code === "EDQUOT") {
    return new BoothkeepError(
      "output.no-space",
      `There is no room left to write '${file}'; nothing was kept.`,
      {
        place: { file },
        next: "Make room, or write to another disk.",
        cause: error,
      },
    );
  }
  if (code === "EACCES" || code === "EPERM") return permissionError(file, error);
  return new BoothkeepError(
    "output.failed",
    `'${file}' could not be written (${code || "unknown reason"}).`,
    {
      place: { file },
      next: "Check that the disk is there and may be written, or write to another folder.",
      cause: error,
    },
  );
}
