import { canonicalText } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { LogbookHeader } from "../../model/index.ts";
import { keepMark, keepRootFile } from "./durable-file.ts";
import { withStore } from "./faults.ts";
import { type FileStore, faultCode } from "./file-store.ts";
import { HEADER_FILE, headerMark, REGISTER } from "./layout.ts";
import { FORMAT_VERSION, isDateTime } from "./records.ts";

/** A logbook that was opened: its place and its header. Nothing is held open; nothing has to be closed. */
export interface Logbook {
  readonly store: FileStore;
  readonly header: LogbookHeader;
}

/** What a new logbook says of itself. */
export interface CreateLogbookOptions {
  /** A fresh UUID (RFC 9562), for reports only. */
  readonly id: string;
  /** RFC 3339 with offset. */
  readonly startedAt: string;
  readonly notes?: string;
}

/**
 * Starts a logbook in a store that holds none.
 *
 * @throws BoothkeepError output.exists, usage.wrong, output.no-space, output.read-only, input.no-permission
 */
export function createLogbook(store: FileStore, options: CreateLogbookOptions): Logbook {
  requireDateTime(options.startedAt);
  const header: LogbookHeader = {
    kind: "boothkeep.logbook",
    schemaVersion: FORMAT_VERSION,
    id: options.id,
    startedAt: options.startedAt,
    ...(options.notes === undefined ? {} : { notes: options.notes }),
  };
  const bytes = new TextEncoder().encode(`${canonicalText(header)}\n`);
  withStore(store, HEADER_FILE, () => {
    if (readHeader(store) !== undefined) {
      throw new BoothkeepError("output.exists", "There is a logbook here already.", {
        place: { file: store.label },
        next: "Use it, or start the new one in another folder.",
      });
    }
    keepRootFile(store, HEADER_FILE, bytes);
    keepMark(store, "", headerMark(bytes));
  });
  return { store, header };
}

/**
 * Opens a logbook for reading and recording. Nothing is written.
 *
 * @throws BoothkeepError logbook.not-found, logbook.damaged-header, document.newer-version, input.no-permission
 */
export function openLogbook(store: FileStore): Logbook {
  const bytes = withStore(store, HEADER_FILE, () => readHeader(store));
  if (bytes === undefined && hasHeaderMark(store)) {
    throw new BoothkeepError(
      "logbook.damaged-header",
      "The file 'logbook.json' is missing: the register says that it was here.",
      {
        place: { file: `${store.label}/${HEADER_FILE}` },
        next: "Put it back: 'boothkeep verify --heal-from OTHER' from another copy, or 'boothkeep verify --heal' without one. The entries are not affected.",
      },
    );
  }
  if (bytes === undefined) {
    throw new BoothkeepError("logbook.not-found", `There is no logbook in '${store.label}'.`, {
      place: { file: store.label },
      next: "Name the folder that holds 'logbook.json', or start a logbook there.",
    });
  }
  return { store, header: parseHeader(store, bytes) };
}

function hasHeaderMark(store: FileStore): boolean {
  const marks = withStore(store, REGISTER, () => store.list(REGISTER));
  return marks.some(({ name }) => name.startsWith(`${HEADER_FILE}.`));
}

/** @throws BoothkeepError usage.wrong */
export function requireDateTime(text: string): void {
  if (isDateTime(text)) return;
  throw new BoothkeepError("usage.wrong", `'${text}' is no date and time with offset.`, {
    next: "Write it as in RFC 3339, for example 2026-03-02T23:40:00+01:00.",
  });
}

function damagedHeader(store: FileStore): BoothkeepError {
  return new BoothkeepError("logbook.damaged-header", "The file 'logbook.json' is damaged.", {
    place: { file: `${store.label}/${HEADER_FILE}` },
    next: "Put it back: 'boothkeep verify --heal-from OTHER' from another copy, or 'boothkeep verify --heal' without one. The entries are not affected.",
  });
}

function readHeader(store: FileStore): Uint8Array | undefined {
  try {
    return store.read(HEADER_FILE);
  } catch (error) {
    if (faultCode(error) === "ENOENT") return undefined;
    throw error;
  }
}

function parseHeader(store: FileStore, bytes: Uint8Array): LogbookHeader {
  let header: Partial<LogbookHeader> | undefined;
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    header = JSON.parse(text) as Partial<LogbookHeader>;
    if (text !== `${canonicalText(header)}\n`) header = undefined;
  } catch {}
  if (header?.kind !== "boothkeep.logbook" || typeof header.schemaVersion !== "string") {
    throw damagedHeader(store);
  }
  const [major] = header.schemaVersion.split(".");
  if (major !== FORMAT_VERSION.split(".")[0]) {
    // A flipped bit can look like a newer version; the register knows.
    const marks = withStore(store, REGISTER, () => store.list(REGISTER)).map((item) => item.name);
    if (!marks.includes(headerMark(bytes))) throw damagedHeader(store);
    throw new BoothkeepError(
      "document.newer-version",
      `The logbook has format version ${header.schemaVersion}; this program reads ${FORMAT_VERSION}.`,
      { place: { file: store.label }, next: "Use a newer boothkeep; nothing was changed." },
    );
  }
  return header as LogbookHeader;
}
