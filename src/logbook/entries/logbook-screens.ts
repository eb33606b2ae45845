import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import { configurationResolver, referenceShelf } from "./configurations.ts";
import { withStore } from "./faults.ts";
import { type HistoryFilter, type HistoryItem, screenHistory, screenPlaces } from "./history.ts";
import { BOUND, ENTRIES, parseFileName } from "./layout.ts";
import type { Logbook } from "./logbook.ts";
import type { KeptDocument } from "./record.ts";
import { readScreen, type ScreenPlace } from "./screen-records.ts";
import { SharedDocuments } from "./shared-documents.ts";

/** A screen of a logbook of which nothing was read yet. */
export interface LogbookScreen {
  /** The screen's folder inside the logbook: "SITE/SCREEN", written so that every file system takes it. */
  readonly folder: string;
  /**
   * SHA-256 over the names of the screen's files. Names tell contents, so that two equal marks mean equal records; what a
   * damaged medium made of a file's bytes, only verifying tells.
   */
  readonly mark: Sha256;
  /** Reads everything that is kept of the screen. */
  readonly read: () => ReadScreen;
}

export interface ReadScreen {
  /** In the order of the entries' numbers. */
  readonly items: readonly HistoryItem[];
  /** RFC 8785 text of an entry's configuration, its SHA-256 checked; undefined when it cannot be put together. */
  readonly configurationText: (item: HistoryItem) => string | undefined;
  /**
   * The same, parsed and nothing more; to be read only: what the configurations of one screen have in common is the same
   * object in all of them.
   */
  readonly configuration: (item: HistoryItem) => KeptDocument | undefined;
  readonly findings: readonly Finding[];
  /** Whether a damaged record that no entry follows may be the last entry: then nobody can tell how the screen stands. */
  readonly lastMayBeDamaged: boolean;
}

export interface ScreensFilter extends Pick<HistoryFilter, "siteId" | "screenId"> {
  /** Exactly these, in this order, by {@link LogbookScreen.folder}; what a logbook does not have reads as empty. */
  readonly folders?: readonly string[];
}

/**
 * The screens of a logbook one after the other, so that a large logbook is never in memory as a whole.
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function* logbookScreens(
  { store }: Logbook,
  { folders, ...filter }: ScreensFilter = {},
): Generator<LogbookScreen, void> {
  const bound = withStore(store, BOUND, () => store.list(BOUND)).map(({ name }) => name);
  const shelf = referenceShelf(store);
  for (const place of folders?.map(placeOfFolder) ?? screenPlaces(store, filter)) {
    yield {
      folder: `${place.site}/${place.screen}`,
      get mark() {
        const folder = `${ENTRIES}/${place.site}/${place.screen}`;
        const own = withStore(store, folder, () => store.list(folder)).map(({ name }) => name);
        const shared = bound.filter((name) => parseFileName(name)?.stem === place.site);
        return sha256([...own, "", ...shared].join("\n"));
      },
      read: () => {
        const records = withStore(store, "", () => readScreen(store, place));
        const resolve = configurationResolver(store, records, shelf);
        const resolved = ({ entry }: HistoryItem) => withStore(store, "", () => resolve(entry.configuration));
        const documents = new SharedDocuments();
        const items = screenHistory(records);
        const followed = new Set<string>(items.flatMap(({ entry }) => entry.previous));
        return {
          items,
          lastMayBeDamaged: [...records.damaged].some((id) => !followed.has(id)),
          configurationText: (item) => resolved(item)?.text,
          configuration: (item) => {
            const own = resolved(item);
            return own && documents.parse(own);
          },
          findings: records.findings,
        };
      },
    };
  }
}

function placeOfFolder(folder: string): ScreenPlace {
  const [site = "", screen = ""] = folder.split("/");
  return { site, screen };
}
