import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import { configurationResolver } from "./configurations.ts";
import { withStore } from "./faults.ts";
import { unpack } from "./gzip-lines.ts";
import { type HistoryItem, screenHistory, screenPlaces } from "./history.ts";
import { readFolder } from "./kept-files.ts";
import { PARTS } from "./layout.ts";
import type { Logbook } from "./logbook.ts";
import type { KeptDocument } from "./record.ts";
import { readScreen, type ScreenRecords } from "./screen-records.ts";

/** Which entry: by id (or its start), by screen, or both. */
export interface EntryQuery {
  /** The whole id or its first digits, at least four. Without it: the screen's latest entry that was not withdrawn. */
  readonly id?: string;
  readonly siteId?: string;
  readonly screenId?: string;
}

export interface ReadEntry extends HistoryItem {
  /** The configuration as it was recorded, of whatever schema version; its SHA-256 was checked. */
  readonly configuration: KeptDocument;
  /** Its RFC 8785 text. */
  readonly canonicalText: string;
  /** What could not be trusted among the screen's records; none of it touches this entry. */
  readonly findings: readonly Finding[];
}

const SHORTEST_ID = 4;

/**
 * Finds one entry and puts its configuration together.
 *
 * @throws BoothkeepError logbook.no-entry, logbook.ambiguous-entry, logbook.lost-configuration, usage.wrong,
 *   input.no-permission, output.failed
 */
export function readEntry(logbook: Logbook, query: EntryQuery): ReadEntry {
  const { item, records, findings } = findEntry(logbook, query);
  const resolved = withStore(logbook.store, "", () =>
    configurationResolver(logbook.store, records)(item.entry.configuration),
  );
  if (resolved === undefined) throw lost(item);
  const configuration = JSON.parse(resolved.text) as KeptDocument;
  return { ...item, configuration, canonicalText: resolved.text, findings };
}

/** An entry that was found, with all that is kept of its screen. */
export interface FoundEntry {
  readonly item: HistoryItem;
  readonly records: ScreenRecords;
  readonly findings: readonly Finding[];
}

/**
 * Finds one entry without putting its configuration together, which may be impossible.
 * @throws BoothkeepError logbook.no-entry, logbook.ambiguous-entry, usage.wrong
 */
export function findEntry({ store }: Logbook, query: EntryQuery): FoundEntry {
  requireQuery(query);
  return withStore(store, "", () => {
    const findings: Finding[] = [];
    const found = screenPlaces(store, query).flatMap((place) => {
      const records = readScreen(store, place);
      findings.push(...records.findings);
      return choose(screenHistory(records), query).map((item) => ({ item, records }));
    });
    const [hit, ...more] = found;
    if (hit === undefined) throw noEntry(query, findings);
    if (more.length > 0) throw ambiguous(found.map(({ item }) => item));
    return { ...hit, findings: hit.records.findings };
  });
}

/**
 * The bytes of an attachment, checked against its SHA-256.
 * @throws BoothkeepError logbook.lost-attachment, input.no-permission, output.failed
 */
export function readAttachment(logbook: Logbook, wanted: Sha256): Uint8Array {
  const { files } = withStore(logbook.store, PARTS, () =>
    readFolder(logbook.store, PARTS, (stem) => stem === wanted),
  );
  for (const file of files) {
    const bytes = unpack(file.bytes);
    if (bytes !== undefined && sha256(bytes) === wanted) return bytes;
  }
  throw new BoothkeepError("logbook.lost-attachment", "The attachment is missing or damaged.", {
    place: { id: wanted },
    next: "Heal the logbook from another copy: 'boothkeep verify --heal-from OTHER'.",
  });
}

function choose(items: readonly HistoryItem[], query: EntryQuery): readonly HistoryItem[] {
  const here = items.filter(
    ({ entry }) =>
      (query.siteId === undefined || entry.siteId === query.siteId) &&
      (query.screenId === undefined || entry.screenId === query.screenId),
  );
  if (query.id !== undefined) return here.filter((item) => item.id.startsWith(query.id!));
  return here.filter((item) => item.withdrawals.length === 0).slice(-1);
}

function requireQuery(query: EntryQuery): void {
  const { id } = query;
  const fits = id === undefined ? query.siteId !== undefined && query.screenId !== undefined : isId(id);
  if (fits) return;
  throw new BoothkeepError(
    "usage.wrong",
    id === undefined ? "The entry is not named." : `'${id}' is no id of an entry.`,
    {
      next: `Give at least the first ${SHORTEST_ID} digits of an id as the history lists it, or a site and a screen.`,
    },
  );
}

function isId(id: string): boolean {
  return id.length >= SHORTEST_ID && /^[0-9a-f]{1,64}$/.test(id);
}

function noEntry({ id, siteId, screenId }: EntryQuery, findings: readonly Finding[]): BoothkeepError {
  const of = id === undefined ? `of ${siteId} / ${screenId} that holds` : `with the id ${id}`;
  const damage = findings.some((finding) => finding.severity === "error");
  return new BoothkeepError("logbook.no-entry", `The logbook has no entry ${of}.`, {
    ...(id === undefined ? {} : { place: { id } }),
    next: damage
      ? "Something here is damaged or missing: 'boothkeep verify' says what, and heals from another copy."
      : "List what is there: 'boothkeep history'.",
  });
}

function ambiguous(items: readonly HistoryItem[]): BoothkeepError {
  return new BoothkeepError("logbook.ambiguous-entry", `${items.length} entries answer to this.`, {
    next: `Give more digits of the id: ${items.map((item) => item.id.slice(0, 16)).join(", ")}.`,
    data: { ids: items.map((item) => item.id) },
  });
}

function lost({ id, entry }: HistoryItem): BoothkeepError {
  return new BoothkeepError(
    "logbook.lost-configuration",
    `The configuration of entry ${entry.number} of ${entry.siteId} / ${entry.screenId} cannot be put together: something it rests on is missing or damaged.`,
    {
      place: { id },
      next: "Heal the logbook from another copy ('boothkeep verify --heal-from OTHER'), or take it from a handover pack.",
    },
  );
}
