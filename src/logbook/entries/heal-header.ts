import {
  createLogbook,
  type FileStore,
  faultCode,
  findPlaces,
  HEADER_FILE,
  headerMark,
  keepRootFile,
  type Logbook,
  openLogbook,
  REGISTER,
  readScreen,
  setAside,
  withStore,
} from "../medium/index.ts";

/** What a header that has to be made anew says. */
export interface HealHeaderOptions {
  /** A fresh UUID (RFC 9562) for a header that has to be made anew. */
  readonly id: string;
  /** RFC 3339 with offset. */
  readonly healedAt: string;
}

/**
 * Opens a logbook whose header, 'logbook.json', is lost or damaged, and puts the header back first: the same bytes from the
 * other copy where the register knows them, else a new one. Nothing else rests on the header; a damaged one is set aside.
 *
 * @throws BoothkeepError logbook.not-found where there is neither a header nor a register of one; output.*
 */
export function openAndHealHeader(
  store: FileStore,
  from: FileStore | undefined,
  options: HealHeaderOptions,
): { readonly logbook: Logbook; readonly header: "whole" | "brought over" | "made anew" } {
  const marks = withStore(store, REGISTER, () => store.list(REGISTER)).map(({ name }) => name);
  const isMarked = marks.some((name) => name.startsWith(`${HEADER_FILE}.`));
  const own = headerBytes(store);
  if (own === undefined && !isMarked) return { logbook: openLogbook(store), header: "whole" };
  if (own !== undefined && opens(store)) return { logbook: openLogbook(store), header: "whole" };
  return withStore(store, HEADER_FILE, () => {
    if (own !== undefined) setAside(store, HEADER_FILE);
    const theirs = from && headerBytes(from);
    if (theirs !== undefined && marks.includes(headerMark(theirs))) {
      keepRootFile(store, HEADER_FILE, theirs);
      return { logbook: openLogbook(store), header: "brought over" };
    }
    for (const name of marks) if (name.startsWith(`${HEADER_FILE}.`)) store.remove(`${REGISTER}/${name}`);
    const startedAt = earliestEntry(store) ?? options.healedAt;
    const notes = `The header was lost and made anew on ${options.healedAt.slice(0, 10)}.`;
    return { logbook: createLogbook(store, { id: options.id, startedAt, notes }), header: "made anew" };
  });
}

function opens(store: FileStore): boolean {
  try {
    openLogbook(store);
    return true;
  } catch (error) {
    if ((error as { readonly code?: string }).code === "logbook.damaged-header") return false;
    throw error;
  }
}

function headerBytes(store: FileStore): Uint8Array | undefined {
  try {
    return store.read(HEADER_FILE);
  } catch (error) {
    if (faultCode(error) === "ENOENT") return undefined;
    throw error;
  }
}

function earliestEntry(store: FileStore): string | undefined {
  const times = findPlaces(store).places.flatMap((place) =>
    [...readScreen(store, place).entries.values()].map(({ recordedAt }) => recordedAt),
  );
  return times.toSorted((a, b) => Date.parse(a) - Date.parse(b))[0];
}
