import { BoothkeepError } from "../../base/errors/index.ts";
import { type FileStore, withStore } from "../entries/index.ts";

/** Limits of the medium. */
export interface SavePackOptions {
  /** Bytes free on the medium, where the system says so. */
  readonly freeBytes?: number;
}

/** Room for the folder's own growth and for clusters of the largest size (exFAT: 128 KiB). */
const SPARE_BYTES = 256 * 1024;

/**
 * Writes a pack to a folder, a stick or a card: space is checked first, then it is written beside its place,
 * flushed, read back and compared, and only then given its name. The system may answer a read from its own memory:
 * take the medium out and open the pack once more before you leave it in a booth.
 *
 * @param name of the file in the store
 * @throws BoothkeepError output.exists, output.no-space, output.read-only, input.no-permission, output.failed
 */
export function savePack(
  store: FileStore,
  name: string,
  bytes: Uint8Array,
  options: SavePackOptions = {},
): void {
  const place = { file: `${store.label}/${name}` };
  if (options.freeBytes !== undefined && options.freeBytes < bytes.length + SPARE_BYTES) {
    throw new BoothkeepError("output.no-space", "There is no room for the pack; nothing was written.", {
      place,
      next: `Make room: the pack has ${bytes.length} bytes, ${options.freeBytes} are free.`,
      data: { neededBytes: bytes.length + SPARE_BYTES, freeBytes: options.freeBytes },
    });
  }
  withStore(store, name, () => {
    if (store.list("").some((item) => item.name.toLowerCase() === name.toLowerCase())) {
      throw new BoothkeepError("output.exists", `'${name}' exists; nothing is ever written over.`, {
        place,
        next: "Give another name, or move the old file away.",
      });
    }
    const unfinished = store.unfinishedName();
    try {
      store.create(unfinished, bytes);
      store.sync(unfinished);
      compare(store, unfinished, bytes);
      store.rename(unfinished, name);
      store.syncFolder("");
    } catch (error) {
      takeAway(store, unfinished);
      throw error;
    }
    compare(store, name, bytes);
  });
}

function compare(store: FileStore, name: string, bytes: Uint8Array): void {
  if (Buffer.compare(store.read(name), bytes) === 0) return;
  throw new BoothkeepError("output.failed", "What was written does not read back the same.", {
    place: { file: `${store.label}/${name}` },
    next: "Do not trust this medium: use another one.",
  });
}

function takeAway(store: FileStore, name: string): void {
  try {
    store.remove(name);
  } catch {
    // It was never created, or the medium is gone; the first error says more.
  }
}
