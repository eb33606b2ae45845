import {
  closeSync,
  constants,
  type Dirent,
  fstatSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { hostname } from "node:os";
import { sha256 } from "../../../base/canonical/index.ts";
import { type FileStore, faultCode, type StoredItem, UNFINISHED } from "../file-store.ts";

/** A virus scanner or an indexer holds a new file for moments; after this time somebody else does. */
const RENAME_PATIENCE_MS = 1000;
const RENAME_PAUSE_MS = 25;

/** What systems answer that cannot flush a folder (Windows, some network drives): tolerated. */
const CANNOT_SYNC_FOLDER = new Set(["EPERM", "EACCES", "EISDIR", "EINVAL", "ENOTSUP", "EBADF", "ENOSYS"]);

/** A store in a folder of this computer, a memory card, a stick or a network drive. */
export function folderStore(folder: string): FileStore {
  // Windows takes "/" as well.
  const at = (path: string) => (path === "" ? folder : `${folder}/${path}`);
  const host = sha256(hostname()).slice(0, 8);
  let serial = 0;
  return {
    label: folder,
    list(path) {
      try {
        return readdirSync(at(path), { withFileTypes: true })
          .map((item) => ({ name: item.name, kind: kindOf(item, () => `${at(path)}/${item.name}`) }))
          .sort((a, b) => (a.name < b.name ? -1 : 1));
      } catch (error) {
        if (faultCode(error) === "ENOENT") return [];
        throw error;
      }
    },
    read: (path) => readRegular(at(path)),
    create(path, bytes) {
      const descriptor = openSync(at(path), "wx");
      try {
        // Unlike writeSync, this goes on until every byte is written or an error says why not.
        writeFileSync(descriptor, bytes);
      } finally {
        closeSync(descriptor);
      }
    },
    sync: (path) => flush(at(path), "r+"),
    rename: (from, to) => renamePatiently(at(from), at(to)),
    syncFolder(path) {
      try {
        flush(at(path), "r");
      } catch (error) {
        if (!CANNOT_SYNC_FOLDER.has(faultCode(error))) throw error;
      }
    },
    remove: (path) => unlinkSync(at(path)),
    createFolder: (path) => void mkdirSync(at(path), { recursive: true }),
    removeFolder(path) {
      try {
        rmdirSync(at(path));
      } catch (error) {
        if (!["ENOENT", "ENOTEMPTY", "EEXIST"].includes(faultCode(error))) throw error;
      }
    },
    unfinishedName() {
      serial += 1;
      return `~${host}-${process.pid}-${Date.now().toString(36)}-${serial}.tmp`;
    },
    isAbandoned(name) {
      const [writerHost, pid] = name.slice(1).split("-");
      return UNFINISHED.test(name) && writerHost === host && pid !== undefined && !isRunning(Number(pid));
    },
  };
}

/** Where a link leads decides; some systems do not tell the kind in a listing. */
function kindOf(item: Dirent, pathOf: () => string): StoredItem["kind"] {
  if (item.isFile()) return "file";
  if (item.isDirectory()) return "folder";
  const isKnown = item.isFIFO() || item.isSocket() || item.isBlockDevice() || item.isCharacterDevice();
  if (isKnown) return "other";
  const stat = statSync(pathOf(), { throwIfNoEntry: false });
  if (stat?.isFile()) return "file";
  return stat?.isDirectory() ? "folder" : "other";
}

/** A named pipe would be waited for and some devices never end: what is opened is looked at before it is read. */
function readRegular(path: string): Uint8Array {
  const descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stat = fstatSync(descriptor);
    if (!stat.isFile()) throw notRegular(stat.isDirectory() ? "EISDIR" : "EINVAL", path);
    return readFileSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

function notRegular(code: string, path: string): Error & { readonly code: string } {
  return Object.assign(new Error(`${code}: no regular file: ${path}`), { code });
}

function flush(path: string, flags: string): void {
  const descriptor = openSync(path, flags);
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

function renamePatiently(from: string, to: string): void {
  const held = process.platform === "win32" ? ["EBUSY", "EPERM", "EACCES"] : ["EBUSY"];
  for (let waitedMs = 0; ; waitedMs += RENAME_PAUSE_MS) {
    try {
      renameSync(from, to);
      return;
    } catch (error) {
      if (!held.includes(faultCode(error)) || waitedMs >= RENAME_PATIENCE_MS) throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, RENAME_PAUSE_MS);
    }
  }
}

/** A process that may not be signalled still runs. */
function isRunning(pid: number): boolean {
  if (pid === process.pid) return true;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return faultCode(error) !== "ESRCH";
  }
}
