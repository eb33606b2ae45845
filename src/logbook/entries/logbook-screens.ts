import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import {
  BOUND,
  configurationResolver,
  ENTRIES,
  findPlaces,
  type KeptDocument,
  type Logbook,
  logbookFinding,
  type PlacesFilter,
  parseFileName,
  type ScreenPlace,
  SharedDocuments,
  withStore,
} from "../medium/index.ts";
import {
  type HistoryItem,
  judgeScreen,
  type Refusal,
  type StandingGround,
  standingGround,
  subjectRefusal,
} from "../standing/index.ts";
import { type ScreenNote, screenNote } from "./history.ts";

/** A screen of a logbook of which nothing was read yet. */
export interface LogbookScreen {
  /**
   * The screen's folder inside the logbook: "SITE/SCREEN", written so that every file system takes it. "SITE/" stands for
   * screens of the site that nobody can name, since what held them is missing or damaged.
   */
  readonly folder: string;
  /**
   * SHA-256 over the names of the screen's files and of what the register says should be there. Names tell contents, so that
   * two equal marks mean equal records; what a damaged medium made of a file's bytes, only verifying tells.
   */
  readonly mark: Sha256;
  /** Reads everything that is kept of the screen. */
  readonly read: () => ReadScreen;
}

/** A screen of a logbook as far as it can be read. */
export interface ReadScreen {
  /** In the order of the entries' numbers. */
  readonly items: readonly HistoryItem[];
  /** What of it is to be said; undefined where there is nothing. */
  readonly note: ScreenNote | undefined;
  /** RFC 8785 text of an entry's configuration; undefined where it is lost or of another screen. */
  readonly configurationText: (item: HistoryItem) => string | undefined;
  /**
   * The same, parsed and nothing more; to be read only: what the configurations of one screen have in common is the same
   * object in all of them.
   */
  readonly configuration: (item: HistoryItem) => KeptDocument | undefined;
  /** Bytes of an attachment; undefined where it is missing or damaged. */
  readonly attachment: (sha256: Sha256) => Uint8Array | undefined;
  readonly findings: readonly Finding[];
  /** Whether something that cannot be seen here may be the last entry: then nobody can tell how the screen stands. */
  readonly lastMayBeUnseen: boolean;
}

/** Which screens are read. */
export interface ScreensFilter extends PlacesFilter {
  /** Exactly these, in this order, by {@link LogbookScreen.folder}; what a logbook does not have reads as empty. */
  readonly folders?: readonly string[];
}

/**
 * The screens of a logbook one after the other, so that a large logbook is never in memory as a whole.
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function* logbookScreens(
  logbook: Logbook,
  { folders, ...filter }: ScreensFilter = {},
): Generator<LogbookScreen, void> {
  const { store } = logbook;
  const ground = standingGround(logbook);
  const bound = withStore(store, BOUND, () => store.list(BOUND)).map(({ name }) => name);
  for (const place of folders?.map(placeOfFolder) ?? allPlaces(logbook, filter)) {
    yield {
      folder: `${place.site}/${place.screen}`,
      get mark() {
        const folder = `${ENTRIES}/${place.site}/${place.screen}`;
        const own = withStore(store, folder, () => store.list(folder)).map(({ name }) => name);
        const shared = bound.filter((name) => parseFileName(name)?.stem === place.site);
        const marks = [...ground.register.recordMarks(place), "", ...ground.register.boundMarks(place.site)];
        return sha256([...own, "", ...shared, "", ...marks].join("\n"));
      },
      read: () => (place.screen === "" ? unlisted(place.site) : readScreenOf(ground, place)),
    };
  }
}

/** One screen, with what is known of it; without entries where the logbook has none. */
export function readLogbookScreen(logbook: Logbook, folder: string): ReadScreen {
  return readScreenOf(standingGround(logbook), placeOfFolder(folder));
}

function allPlaces({ store }: Logbook, filter: PlacesFilter): readonly ScreenPlace[] {
  const { places, unlistedSites } = findPlaces(store, filter);
  const unknown = unlistedSites.map((site) => ({ site, screen: "" }));
  return [...places, ...unknown].sort(
    (a, b) => compareText(a.site, b.site) || compareText(a.screen, b.screen),
  );
}

function readScreenOf(ground: StandingGround, place: ScreenPlace): ReadScreen {
  const { store } = ground.logbook;
  const screen = judgeScreen(ground, place);
  const { items, unseen, records } = screen;
  const resolve = configurationResolver(store, records, ground.references);
  const documents = new SharedDocuments();
  const known = new Map<HistoryItem, Checked>();
  const checked = (item: HistoryItem): Checked => {
    const already = known.get(item);
    if (already !== undefined) return already;
    const resolved = withStore(store, "", () => resolve(item.entry.configuration));
    const document = resolved && documents.parse(resolved);
    const refusal = document && subjectRefusal(item.entry, document);
    const isOwn = resolved !== undefined && document !== undefined && refusal === undefined;
    const result: Checked = isOwn ? { text: resolved.text, document } : { refusal };
    known.set(item, result);
    return result;
  };
  const followed = new Set<string>(items.flatMap(({ entry }) => entry.previous));
  const isFollowed = (start: string) => [...followed].some((id) => id.startsWith(start));
  return {
    items,
    note: screenNote(screen),
    lastMayBeUnseen: unseen.boundFiles.length > 0 || unseen.records.some(({ id }) => !isFollowed(id)),
    configurationText: (item) => checked(item).text,
    configuration: (item) => checked(item).document,
    attachment: (sha256) => withStore(store, "", () => ground.parts.read(sha256)),
    findings: [...ground.policy.findings, ...screen.findings],
  };
}

interface Checked {
  readonly text?: string;
  readonly document?: KeptDocument;
  readonly refusal?: Refusal | undefined;
}

function unlisted(site: string): ReadScreen {
  return {
    items: [],
    note: {
      siteId: site,
      screenId: "",
      unseen: { records: [], boundFiles: [`${BOUND}/${site}`] },
      unsettled: undefined,
    },
    lastMayBeUnseen: true,
    configurationText: () => undefined,
    configuration: () => undefined,
    attachment: () => undefined,
    findings: [logbookFinding("logbook/unlisted-screens", `${BOUND}/${site}`)],
  };
}

function placeOfFolder(folder: string): ScreenPlace {
  const [site = "", screen = ""] = folder.split("/");
  return { site, screen };
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
