import { BoothkeepError } from "../../base/errors/index.ts";
import { storeError } from "./faults.ts";
import { type FileStore, faultCode, UNFINISHED } from "./file-store.ts";
import { DAMAGED, markStem, registerPlace } from "./layout.ts";

/** Another process may sweep our unfinished file when it takes us for dead; then we write it again. */
const ATTEMPTS = 3;

/**
 * Writes a file once and for good: beside its place under an unfinished name, flushed, moved to its name, folder
 * flushed, read back. After a power loss at any moment the file is there and whole, or not there. A file that has
 * these bytes already is left alone; one that has other bytes under this name is damaged, since names vouch for
 * bytes, and is set aside.
 *
 * @throws BoothkeepError output.no-space, output.read-only, input.no-permission, output.failed
 */
export function keepFile(store: FileStore, folder: string, name: string, bytes: Uint8Array): void {
  const path = `${folder}/${name}`;
  try {
    if (isKept(store, path, bytes)) return;
    for (let attempt = 1; !tryToKeep(store, folder, path, bytes); attempt += 1) {
      if (attempt === ATTEMPTS) throw readBackError(store, path);
    }
  } catch (error) {
    throw storeError(error, store, path);
  }
}

/** Writes a file of the logbook's own folder whose name does not vouch for it: its mark does. */
export function keepRootFile(store: FileStore, name: string, bytes: Uint8Array): void {
  const unfinished = store.unfinishedName();
  inFolder(store, "", () => store.create(unfinished, bytes));
  store.sync(unfinished);
  store.rename(unfinished, name);
  store.syncFolder("");
}

/**
 * Leaves a mark that the file was here once; see "register" in schemas/logbook-format.md. Its name is what counts: it is empty
 * but for that of a bound file, which lists what the file holds.
 */
export function keepMark(
  store: FileStore,
  folder: string,
  stem: string,
  content: Uint8Array = new Uint8Array(),
): void {
  const place = registerPlace(folder);
  const path = `${place.folder}/${place.prefix}${stem}`;
  inFolder(store, place.folder, () => {
    try {
      store.create(path, content);
    } catch (error) {
      if (faultCode(error) !== "EEXIST") throw error;
      return;
    }
    if (content.length > 0) store.sync(path);
  });
  store.syncFolder(place.folder);
}

/** Takes back the marks of files that are about to go because what they hold is whole elsewhere. */
export function removeMarks(store: FileStore, folder: string, fileNames: readonly string[]): void {
  if (fileNames.length === 0) return;
  const place = registerPlace(folder);
  for (const name of fileNames) {
    removeIfThere(store, `${place.folder}/${place.prefix}${markStem(folder, name)}`);
  }
  unlessMissing(() => store.syncFolder(place.folder));
}

/** Takes back a mark by the name that the register has it under: `FOLDER/STEM`. */
export function removeMarkOf(store: FileStore, mark: string): void {
  const folder = mark.slice(0, mark.lastIndexOf("/"));
  const place = registerPlace(folder);
  removeIfThere(store, `${place.folder}/${place.prefix}${mark.slice(folder.length + 1)}`);
  unlessMissing(() => store.syncFolder(place.folder));
}

/** Removes a file; another process may have been quicker. */
export function removeIfThere(store: FileStore, path: string): void {
  unlessMissing(() => store.remove(path));
}

function unlessMissing(operation: () => void): void {
  try {
    operation();
  } catch (error) {
    if (faultCode(error) !== "ENOENT") throw error;
  }
}

/** Removes files that a writer left unfinished and that no running process will finish. */
export function sweepUnfinished(store: FileStore, folder: string): void {
  for (const { name, kind } of store.list(folder)) {
    if (kind === "file" && UNFINISHED.test(name) && store.isAbandoned(name)) {
      attempt(() => store.remove(`${folder}/${name}`));
    }
  }
}

/** Moves a file out of the way, keeping its bytes. */
export function setAside(store: FileStore, path: string): void {
  const name = path.replaceAll("/", "~");
  inFolder(store, DAMAGED, () => {
    const taken = new Set(store.list(DAMAGED).map((item) => item.name));
    let free = name;
    for (let number = 2; taken.has(free); number += 1) free = `${name}.${number}`;
    store.rename(path, `${DAMAGED}/${free}`);
  });
  store.syncFolder(DAMAGED);
}

/** Runs an operation that needs a folder, creating the folder when it turns out to be missing. */
export function inFolder<T>(store: FileStore, folder: string, operation: () => T): T {
  try {
    return operation();
  } catch (error) {
    if (faultCode(error) !== "ENOENT") throw error;
  }
  const parts = folder.split("/");
  store.createFolder(folder);
  for (let depth = parts.length - 1; depth >= 0; depth -= 1)
    store.syncFolder(parts.slice(0, depth).join("/"));
  return operation();
}

function tryToKeep(store: FileStore, folder: string, path: string, bytes: Uint8Array): boolean {
  const unfinished = `${folder}/${store.unfinishedName()}`;
  try {
    inFolder(store, folder, () => store.create(unfinished, bytes));
    store.sync(unfinished);
    store.rename(unfinished, path);
  } catch (error) {
    attempt(() => store.remove(unfinished));
    if (isKept(store, path, bytes)) return true;
    if (faultCode(error) === "ENOENT") return false;
    throw error;
  }
  store.syncFolder(folder);
  return isKept(store, path, bytes);
}

function isKept(store: FileStore, path: string, bytes: Uint8Array): boolean {
  let present: Uint8Array;
  try {
    present = store.read(path);
  } catch (error) {
    if (faultCode(error) === "ENOENT") return false;
    throw error;
  }
  if (Buffer.compare(present, bytes) === 0) return true;
  setAside(store, path);
  return false;
}

function attempt(operation: () => void): void {
  try {
    operation();
  } catch {
    // The file stays behind under an unfinished name; readers pass over it and the next writer sweeps it.
  }
}

function readBackError(store: FileStore, path: string): BoothkeepError {
  return new BoothkeepError("output.failed", "What was written does not read back the same.", {
    place: { file: `${store.label}/${path}` },
    next: "Do not trust this medium: copy the logbook to another one and record there.",
  });
}
