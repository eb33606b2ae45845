import type { FileStore } from "../../../../src/logbook/medium/file-store.ts";
import { fault } from "../../../../src/logbook/medium/stores/memory-store.ts";

/** Operations that change a store. */
export const CHANGING = [
  "create",
  "sync",
  "rename",
  "syncFolder",
  "remove",
  "createFolder",
  "removeFolder",
] as const;
/** Operations that only look. */
export const LOOKING = ["list", "read"] as const;
type Operation = (typeof CHANGING)[number] | (typeof LOOKING)[number];

/** Called before each operation with its running number from 1; may throw or end the process. */
export type Interrupt = (call: {
  readonly number: number;
  readonly operation: Operation;
  readonly path: string;
}) => void;

/** A store that asks before each operation of the given kinds. */
export function watchedStore(
  store: FileStore,
  operations: readonly Operation[],
  interrupt: Interrupt,
): FileStore {
  let number = 0;
  const watched: FileStore = Object.create(store) as FileStore;
  for (const operation of operations) {
    const original = (store[operation] as (...args: unknown[]) => unknown).bind(store);
    Object.defineProperty(watched, operation, {
      value: (...args: unknown[]) => {
        number += 1;
        interrupt({ number, operation, path: String(args[0]) });
        return original(...args);
      },
    });
  }
  return watched;
}

/** A store whose operation `failAt`, and with `forever` every later one, fails with a POSIX code. */
export function faultyStore(
  store: FileStore,
  {
    failAt,
    code,
    forever = false,
    operations = CHANGING,
  }: {
    readonly failAt: number;
    readonly code: string;
    readonly forever?: boolean;
    readonly operations?: readonly Operation[];
  },
): FileStore {
  return watchedStore(store, operations, ({ number, path }) => {
    if (number === failAt || (forever && number > failAt)) throw fault(code, path);
  });
}

/** How many operations of the given kinds something takes. */
export function countOperations(
  store: FileStore,
  run: (store: FileStore) => void,
  operations: readonly Operation[] = CHANGING,
): number {
  let count = 0;
  run(
    watchedStore(store, operations, ({ number }) => {
      count = number;
    }),
  );
  return count;
}

/**
 * A store with the manners of FAT: names fold case, `: * ? " < > |` and trailing dots are refused, a name that is
 * taken refuses a rename, folders cannot be flushed. From memory: the FAT specification was not at hand.
 */
export function fatStore(store: FileStore): FileStore {
  const real = (path: string) => path.toLowerCase();
  const check = (path: string) => {
    if (/[:*?"<>|\\]|[. ](\/|$)/.test(path)) throw fault("EINVAL", path);
    return real(path);
  };
  return {
    label: "FAT",
    list: (folder) => store.list(real(folder)),
    read: (path) => store.read(real(path)),
    create: (path, bytes) => store.create(check(path), bytes),
    sync: (path) => store.sync(real(path)),
    rename(from, to) {
      const taken = store.list(to.slice(0, Math.max(0, to.lastIndexOf("/")))).map((item) => item.name);
      if (taken.includes(real(to.slice(to.lastIndexOf("/") + 1)))) throw fault("EEXIST", to);
      store.rename(real(from), check(to));
    },
    syncFolder: () => {},
    remove: (path) => store.remove(real(path)),
    createFolder: (folder) => store.createFolder(check(folder)),
    removeFolder: (folder) => store.removeFolder(real(folder)),
    unfinishedName: () => store.unfinishedName(),
    isAbandoned: (name) => store.isAbandoned(name),
  };
}
