/** What a listing holds. */
export interface StoredItem {
  readonly name: string;
  /** `other`: a named pipe, a device, a link that leads to one or nowhere: never opened. */
  readonly kind: "file" | "folder" | "other";
}

/**
 * All that a logbook asks of the place it is kept in. Paths are relative to the logbook's folder, their parts joined
 * by "/"; "" is the folder itself. Every operation is short and synchronous, so that nothing of the same process can
 * come between two of them. Operations that fail throw an error whose `code` is the POSIX name (ENOENT, EEXIST,
 * ENOSPC, EACCES ...); the logbook turns these into words.
 *
 * No operation needs links, permissions, case, time stamps or a lock, so FAT, exFAT and network drives will do.
 */
export interface FileStore {
  /** Where this is, for messages. */
  readonly label: string;
  /** What the folder holds, sorted by name; nothing when there is no such folder. */
  list(folder: string): readonly StoredItem[];
  /** A file's bytes. ENOENT when there is none; another code for what is no regular file, which is never waited for. */
  read(path: string): Uint8Array;
  /** Creates a file with these bytes, all of them. EEXIST when the name is taken; ENOENT when the folder is missing. */
  create(path: string, bytes: Uint8Array): void;
  /** Returns when the file's bytes are on the medium. */
  sync(path: string): void;
  /**
   * Moves a file to a name that is free. What happens to a file that already has the name differs between file
   * systems (replaced, or EEXIST): the logbook only ever meets its own bytes there.
   */
  rename(from: string, to: string): void;
  /** Returns when names created, moved or removed in the folder are on the medium, as far as the system can say. */
  syncFolder(folder: string): void;
  remove(path: string): void;
  /** Creates a folder and those above it. A folder that is there already is fine. */
  createFolder(folder: string): void;
  /** Removes an empty folder; leaves a folder that is not empty, or not there. */
  removeFolder(folder: string): void;
  /** A fresh name for a file that is being written; matches {@link UNFINISHED}. */
  unfinishedName(): string;
  /** Whether the writer of an unfinished file is known to have ended. When in doubt: false. */
  isAbandoned(unfinishedName: string): boolean;
}

/** Names of files that are being written. Readers pass over them; most sync clients do so too. */
export const UNFINISHED = /^~[a-z0-9-]+\.tmp$/;

/** The POSIX name of a failed operation, "" when it has none. */
export function faultCode(error: unknown): string {
  const code = (error as { readonly code?: unknown } | null)?.code;
  return typeof code === "string" ? code : "";
}
