import { type Sha256, sha256 } from "../canonical/index.ts";
import type { Finding } from "../findings/index.ts";
import { configurationResolver } from "./configurations.ts";
import { withStore } from "./faults.ts";
import { type HistoryFilter, type HistoryItem, screenHistory, screenPlaces } from "./history.ts";
import { BOUND, ENTRIES, parseFileName } from "./layout.ts";
import type { Logbook } from "./logbook.ts";
import { readScreen } from "./screen-records.ts";

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
  readonly findings: readonly Finding[];
}

/**
 * The screens of a logbook one after the other, so that a large logbook is never in memory as a whole.
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function* logbookScreens(
  { store }: Logbook,
  filter: Pick<HistoryFilter, "siteId" | "screenId"> = {},
): Generator<LogbookScreen, void> {
  const bound = withStore(store, BOUND, () => store.list(BOUND)).map(({ name }) => name);
  for (const place of screenPlaces(store, filter)) {
    const folder = `${ENTRIES}/${place.site}/${place.screen}`;
    const own = withStore(store, folder, () => store.list(folder)).map(({ name }) => name);
    const shared = bound.filter((name) => parseFileName(name)?.stem === place.site);
    yield {
      folder: `${place.site}/${place.screen}`,
      mark: sha256([...own, "", ...shared].join("\n")),
      read: () => {
        const records = withStore(store, "", () => readScreen(store, place));
        const resolve = configurationResolver(store, records);
        return {
          items: screenHistory(records),
          configurationText: ({ entry }) => withStore(store, "", () => resolve(entry.configuration))?.text,
          findings: records.findings,
        };
      },
    };
  }
}
