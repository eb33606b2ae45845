import {
  closeSync,
  fstatSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, resolve } from "node:path";
import { BoothkeepError } from "../src/errors/index.ts";

/** No document of ours is larger; a larger file is refused before a byte of it is read. */
export const MAX_FILE_BYTES = 32 * 1024 * 1024;

/**
 * Reads a whole file.
 * @throws BoothkeepError input.not-found, input.is-folder, input.no-permission, input.too-large
 */
export function readInput(file: string, cwd: string): Uint8Array {
  let descriptor: number;
  try {
    descriptor = openSync(resolve(cwd, file), "r");
  } catch (error) {
    throw readError(error, file);
  }
  try {
    const stat = fstatSync(descriptor);
    if (stat.isDirectory()) throw folderError(file);
    if (stat.size > MAX_FILE_BYTES) {
      throw new BoothkeepError(
        "input.too-large",
        `'${file}' has ${stat.size} bytes; no document is that large.`,
        {
          place: { file },
          next: `Name a file of at most ${MAX_FILE_BYTES / 1024 / 1024} MiB; a configuration has about 0.2 MiB.`,
          data: { bytes: stat.size, maxBytes: MAX_FILE_BYTES },
        },
      );
    }
    return readFileSync(descriptor);
  } catch (error) {
    throw error instanceof BoothkeepError ? error : readError(error, file);
  } finally {
    closeSync(descriptor);
  }
}

/**
 * Writes a file that does not exist yet, flushed to the disk; nothing is ever written over, and a file that could
 * not be written whole is taken away again.
 * @throws BoothkeepError output.exists, output.no-space, input.no-permission, output.failed
 */
export function writeNew(file: string, content: Uint8Array | string, cwd: string): void {
  const path = resolve(cwd, file);
  let descriptor: number;
  try {
    mkdirSync(dirname(path), { recursive: true });
    descriptor = openSync(path, "wx");
  } catch (error) {
    throw writeError(error, file);
  }
  try {
    writeFileSync(descriptor, content);
    fsyncSync(descriptor);
    closeSync(descriptor);
  } catch (error) {
    try {
      closeSync(descriptor);
    } catch {}
    unlinkSync(path);
    throw writeError(error, file);
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
