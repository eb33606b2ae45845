import type { Sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import { findPlaces, type Logbook, PartShelf, withStore } from "../medium/index.ts";
import {
  type CheckedEntry,
  entryCheck,
  type HistoryItem,
  isRefusal,
  type JudgedScreen,
  judgeScreen,
  refusalError,
  type StandingGround,
  standingGround,
} from "../standing/index.ts";
import { type ScreenNote, screenNote } from "./history.ts";

/** Which entry: by id (or its start), by screen, or both. */
export interface EntryQuery {
  /** The whole id or its first digits, at least four. Without it: the screen's latest entry that was not withdrawn. */
  readonly id?: string;
  readonly siteId?: string;
  readonly screenId?: string;
}

/** An entry with its configuration. */
export interface ReadEntry extends CheckedEntry {
  /** What of its screen is to be said; undefined where there is nothing. */
  readonly note: ScreenNote | undefined;
  /** What could not be trusted among the screen's records; none of it touches this entry. */
  readonly findings: readonly Finding[];
}

const SHORTEST_ID = 4;

/**
 * Finds one entry and checks it with its configuration: see the standing for what else is known of it.
 *
 * @throws BoothkeepError logbook.no-entry, logbook.ambiguous-entry, logbook.lost-configuration, logbook.other-screen,
 *   logbook.not-canonical, usage.wrong, input.no-permission, output.failed
 */
export function readEntry(logbook: Logbook, query: EntryQuery): ReadEntry {
  const { item, screen, ground, note, findings } = locateEntry(logbook, query);
  const checked = entryCheck(ground, screen)(item);
  if (isRefusal(checked)) throw refusalError(checked, item.id);
  return { ...checked, note, findings };
}

/** An entry that was found, its configuration not looked at. */
export interface FoundEntry {
  readonly item: HistoryItem;
  readonly note: ScreenNote | undefined;
  readonly findings: readonly Finding[];
}

/**
 * Finds one entry without putting its configuration together, which may be impossible.
 * @throws BoothkeepError logbook.no-entry, logbook.ambiguous-entry, usage.wrong
 */
export function findEntry(logbook: Logbook, query: EntryQuery): FoundEntry {
  const { item, note, findings } = locateEntry(logbook, query);
  return { item, note, findings };
}

interface LocatedEntry extends FoundEntry {
  readonly screen: JudgedScreen;
  readonly ground: StandingGround;
}

function locateEntry(logbook: Logbook, query: EntryQuery): LocatedEntry {
  requireQuery(query);
  const ground = standingGround(logbook);
  const findings: Finding[] = [...ground.policy.findings];
  const { places, unlistedSites } = findPlaces(logbook.store, query);
  let isUnseen = unlistedSites.length > 0;
  const found = places.flatMap((place) => {
    const screen = judgeScreen(ground, place);
    findings.push(...screen.findings);
    isUnseen ||= screen.unseen.records.length + screen.unseen.boundFiles.length > 0;
    return choose(screen.items, query).map((item) => ({ item, screen }));
  });
  const [hit, ...more] = found;
  if (hit === undefined) throw noEntry(query, isUnseen || findings.some(isError));
  if (more.length > 0) throw ambiguous(found.map(({ item }) => item));
  const { item, screen } = hit;
  return {
    item,
    screen,
    ground,
    note: screenNote(screen),
    findings: [...ground.policy.findings, ...screen.findings],
  };
}

/**
 * The bytes of an attachment, checked against its SHA-256.
 * @throws BoothkeepError logbook.lost-attachment, input.no-permission, output.failed
 */
export function readAttachment({ store }: Logbook, wanted: Sha256): Uint8Array {
  const bytes = withStore(store, "", () => new PartShelf(store).read(wanted));
  if (bytes !== undefined) return bytes;
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

function isError({ severity }: Finding): boolean {
  return severity === "error";
}

/** Where something is missing or damaged, nobody can say that an entry was never there. */
function noEntry({ id, siteId, screenId }: EntryQuery, isDamaged: boolean): BoothkeepError {
  const of = id === undefined ? `of ${siteId} / ${screenId} that holds` : `with the id ${id}`;
  const place = id === undefined ? {} : { place: { id } };
  if (isDamaged) {
    return new BoothkeepError(
      "logbook.damaged-records",
      `No entry ${of} can be read here, and records are missing or damaged.`,
      {
        ...place,
        next: "Copy what is missing from another copy of the logbook, or run 'boothkeep verify': it says what.",
      },
    );
  }
  return new BoothkeepError("logbook.no-entry", `The logbook has no entry ${of}.`, {
    ...place,
    next: "List what is there: 'boothkeep history'.",
  });
}

function ambiguous(items: readonly HistoryItem[]): BoothkeepError {
  return new BoothkeepError("logbook.ambiguous-entry", `${items.length} entries answer to this.`, {
    next: `Give more digits of the id: ${items.map((item) => item.id.slice(0, 16)).join(", ")}.`,
    data: { ids: items.map((item) => item.id) },
  });
}
