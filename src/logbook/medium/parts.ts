import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import { type FileStore, faultCode } from "./file-store.ts";
import { unpack } from "./gzip-lines.ts";
import { readTolerantly } from "./kept-files.ts";
import { fileDigest, PARTS, parseFileName } from "./layout.ts";

/** The attachments of a logbook. Lists their folder once, and again for one that is not found. */
export class PartShelf {
  private names: ReadonlyMap<string, readonly string[]> | undefined;
  private readonly store: FileStore;

  constructor(store: FileStore) {
    this.store = store;
  }

  /** The bytes of an attachment, checked against its SHA-256; undefined where it is missing or damaged. */
  read(wanted: Sha256): Uint8Array | undefined {
    this.names ??= this.list();
    if (!this.names.has(wanted)) this.names = this.list();
    return this.readListed(wanted);
  }

  /** Whether an attachment is here and whole. */
  has(wanted: Sha256): boolean {
    return this.read(wanted) !== undefined;
  }

  private readListed(wanted: Sha256): Uint8Array | undefined {
    for (const name of this.names?.get(wanted) ?? []) {
      const packed = this.readOne(name);
      const bytes = packed && unpack(packed);
      if (bytes !== undefined && sha256(bytes) === wanted) return bytes;
    }
    return undefined;
  }

  private readOne(name: string): Uint8Array | undefined {
    try {
      const bytes = readTolerantly(this.store, `${PARTS}/${name}`);
      return bytes !== undefined && fileDigest(bytes) === parseFileName(name)?.digest ? bytes : undefined;
    } catch (error) {
      // Set aside since it was listed.
      if (faultCode(error) === "ENOENT") return undefined;
      throw error;
    }
  }

  private list(): ReadonlyMap<string, readonly string[]> {
    const names = new Map<string, string[]>();
    for (const { name, kind } of this.store.list(PARTS)) {
      const stem = kind === "file" ? parseFileName(name)?.stem : undefined;
      if (stem !== undefined) names.set(stem, [...(names.get(stem) ?? []), name]);
    }
    return names;
  }
}
