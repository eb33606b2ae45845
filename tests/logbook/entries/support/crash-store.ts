import { type FileStore, UNFINISHED } from "../../../../src/logbook/medium/file-store.ts";
import { fault } from "../../../../src/logbook/medium/stores/memory-store.ts";
import type { Random } from "./random.ts";

/** What a medium may do to bytes that were written but never flushed. */
export type Tearing = "lost" | "torn" | "zeroed" | "kept";

interface Inode {
  bytes: Uint8Array;
  flushed: boolean;
}

/** A change of names in a folder that was not flushed yet. */
interface NameChange {
  readonly folder: string;
  readonly apply: (names: Map<string, Inode | "folder">) => void;
}

/**
 * A store in memory that forgets like a medium at a power loss: bytes that were not flushed may be missing, torn or
 * zeroed; changes of names in a folder that was not flushed may have happened or not, each for itself.
 */
export class CrashStore implements FileStore {
  readonly label = "crash store";
  private names = new Map<string, Inode | "folder">();
  private durable = new Map<string, Inode | "folder">();
  private pending: NameChange[] = [];
  private serial = 0;

  list(folder: string) {
    return [...this.names]
      .filter(([path]) => parentOf(path) === folder)
      .map(([path, item]) => ({
        name: path.slice(path.lastIndexOf("/") + 1),
        kind: item === "folder" ? ("folder" as const) : ("file" as const),
      }))
      .sort((a, b) => (a.name < b.name ? -1 : 1));
  }

  read(path: string): Uint8Array {
    return this.inode(path).bytes.slice();
  }

  create(path: string, bytes: Uint8Array): void {
    if (this.names.has(path)) throw fault("EEXIST", path);
    if (parentOf(path) !== "" && this.names.get(parentOf(path)) !== "folder") throw fault("ENOENT", path);
    const inode = { bytes: bytes.slice(), flushed: false };
    this.change(parentOf(path), (names) => names.set(path, inode));
  }

  sync(path: string): void {
    this.inode(path).flushed = true;
  }

  rename(from: string, to: string): void {
    const inode = this.inode(from);
    if (this.names.has(to)) throw fault("EEXIST", to);
    this.change(parentOf(to), (names) => {
      names.delete(from);
      names.set(to, inode);
    });
  }

  syncFolder(folder: string): void {
    for (const change of this.pending) if (change.folder === folder) change.apply(this.durable);
    this.pending = this.pending.filter((change) => change.folder !== folder);
  }

  remove(path: string): void {
    this.inode(path);
    this.change(parentOf(path), (names) => names.delete(path));
  }

  createFolder(folder: string): void {
    const parts = folder.split("/");
    for (let depth = 1; depth <= parts.length; depth += 1) {
      const path = parts.slice(0, depth).join("/");
      if (!this.names.has(path)) this.change(parentOf(path), (names) => names.set(path, "folder"));
    }
  }

  removeFolder(folder: string): void {
    if (this.list(folder).length > 0 || this.names.get(folder) !== "folder") return;
    this.change(parentOf(folder), (names) => names.delete(folder));
  }

  unfinishedName(): string {
    this.serial += 1;
    return `~crash-${this.serial}.tmp`;
  }

  isAbandoned(name: string): boolean {
    return UNFINISHED.test(name);
  }

  /** What is on the medium after a power loss now; `chance` decides what happened to each change of names. */
  crash(tearing: Tearing, chance: Random): CrashStore {
    const after = new CrashStore();
    after.serial = this.serial;
    const names = new Map(this.durable);
    for (const change of this.pending) if (chance() < 0.5) change.apply(names);
    for (const [path, item] of names) {
      if (!foldersAbove(path).every((folder) => names.get(folder) === "folder")) continue;
      const kept = item === "folder" ? item : { bytes: bytesAfter(item, tearing, chance), flushed: true };
      after.names.set(path, kept);
      after.durable.set(path, kept);
    }
    return after;
  }

  private inode(path: string): Inode {
    const item = this.names.get(path);
    if (item === undefined) throw fault("ENOENT", path);
    if (item === "folder") throw fault("EISDIR", path);
    return item;
  }

  private change(folder: string, apply: NameChange["apply"]): void {
    apply(this.names);
    this.pending.push({ folder, apply });
  }
}

function bytesAfter({ bytes, flushed }: Inode, tearing: Tearing, chance: Random): Uint8Array {
  if (flushed || tearing === "kept") return bytes;
  const cut = Math.floor(chance() * bytes.length);
  switch (tearing) {
    case "lost":
      return new Uint8Array();
    case "torn":
      return bytes.slice(0, cut);
    case "zeroed":
      return bytes.map((byte, index) => (index < cut ? byte : 0));
  }
}

function parentOf(path: string): string {
  return path.slice(0, Math.max(0, path.lastIndexOf("/")));
}

function foldersAbove(path: string): string[] {
  const parts = path.split("/").slice(0, -1);
  return parts.map((_, index) => parts.slice(0, index + 1).join("/"));
}
