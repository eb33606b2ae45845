import { type FileStore, type StoredItem, UNFINISHED } from "../file-store.ts";

/** A store that lives in memory: for trials and tests. Same contract as a folder. */
export function memoryStore(files: Map<string, Uint8Array> = new Map()): FileStore {
  const folders = new Set<string>([""]);
  for (const path of files.keys()) for (const folder of foldersAbove(path)) folders.add(folder);
  let serial = 0;
  const existing = (path: string): Uint8Array => {
    const bytes = files.get(path);
    if (bytes === undefined) throw fault(folders.has(path) ? "EISDIR" : "ENOENT", path);
    return bytes;
  };
  const requireFree = (path: string) => {
    if (files.has(path) || folders.has(path)) throw fault("EEXIST", path);
    if (!folders.has(parentOf(path))) throw fault("ENOENT", path);
  };
  return {
    label: "memory",
    list(folder) {
      const within = (path: string) => path !== "" && parentOf(path) === folder;
      const item = (kind: StoredItem["kind"]) => (path: string) => ({ name: nameOf(path), kind });
      return [
        ...[...files.keys()].filter(within).map(item("file")),
        ...[...folders].filter(within).map(item("folder")),
      ].sort((a, b) => (a.name < b.name ? -1 : 1));
    },
    read: (path) => new Uint8Array(existing(path)),
    create(path, bytes) {
      requireFree(path);
      files.set(path, new Uint8Array(bytes));
    },
    sync: (path) => void existing(path),
    rename(from, to) {
      const bytes = existing(from);
      requireFree(to);
      files.set(to, bytes);
      files.delete(from);
    },
    syncFolder(folder) {
      if (!folders.has(folder)) throw fault("ENOENT", folder);
    },
    remove(path) {
      existing(path);
      files.delete(path);
    },
    createFolder(folder) {
      for (const path of [...foldersAbove(folder), folder]) {
        if (files.has(path)) throw fault("EEXIST", path);
        folders.add(path);
      }
    },
    removeFolder(folder) {
      const used = [...files.keys(), ...folders].some((path) => path.startsWith(`${folder}/`));
      if (folder !== "" && !used) folders.delete(folder);
    },
    unfinishedName() {
      serial += 1;
      return `~memory-${serial}.tmp`;
    },
    isAbandoned: (name) => UNFINISHED.test(name),
  };
}

/** An error as a file system throws it. */
export function fault(code: string, path: string): Error & { readonly code: string } {
  return Object.assign(new Error(`${code}: ${path}`), { code });
}

function parentOf(path: string): string {
  return path.slice(0, Math.max(0, path.lastIndexOf("/")));
}

function nameOf(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

function foldersAbove(path: string): string[] {
  const parts = path.split("/").slice(0, -1);
  return parts.map((_, index) => parts.slice(0, index + 1).join("/"));
}
