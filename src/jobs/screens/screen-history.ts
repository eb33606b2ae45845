import type { Snapshot } from "../../fleet/drift/index.ts";
import type { HistoryItem, LogbookScreen, ReadScreen } from "../../logbook/entries/index.ts";
import { type Configuration, readConfiguration } from "../../model/index.ts";
import { earlierConfiguration } from "./earlier-configuration.ts";

/** A screen of a logbook with its configurations, none of which is read before it is asked for. */
export interface ScreenHistory {
  readonly siteId: string;
  readonly screenId: string;
  /** In their order, without withdrawn ones and those that no boothkeep numbered. */
  readonly items: readonly HistoryItem[];
  /** The same with their configurations; earlier ones are trusted to be as valid as when they were recorded. */
  readonly snapshots: readonly Snapshot[];
  /** What could not be read or trusted among the records. */
  readonly findings: ReturnType<LogbookScreen["read"]>["findings"];
  /** Whether something that cannot be seen here may be the last entry: then nobody can tell how the screen is. */
  readonly lastMayBeUnseen: boolean;
  /** What of it is to be said: what cannot be seen here, and a read-back that differs. */
  readonly note: ReadScreen["note"];
  readonly attachment: ReadScreen["attachment"];
  /**
   * The configuration of the last entry, read with all care; undefined where there is none or its parts are lost.
   * @throws BoothkeepError as readConfiguration
   */
  readonly latest: () => Configuration | undefined;
}

/** Reads the records of a screen. */
export function readScreenHistory(screen: LogbookScreen): ScreenHistory {
  const {
    items: all,
    findings,
    configurationText,
    configuration,
    lastMayBeUnseen,
    note,
    attachment,
  } = screen.read();
  const items = all.filter(
    ({ withdrawals, standing }) =>
      withdrawals.length === 0 && standing.refusal?.code !== "logbook.number-beyond",
  );
  const last = items.at(-1);
  const latest = remembered(() => {
    const text = last && configurationText(last);
    if (last === undefined || text === undefined) return undefined;
    const { document, warnings } = readConfiguration(text);
    // Nothing was upgraded or left out: the same document, but with parts that earlier ones share.
    return warnings.length === 0 ? (configuration(last) as unknown as Configuration) : document;
  });
  const earlier = (item: HistoryItem, present: Configuration | undefined) =>
    present && earlierConfiguration(configuration(item), () => configurationText(item), present);
  const [siteId = screen.folder, screenId = screen.folder] = screen.folder.split("/");
  return {
    siteId: all[0]?.entry.siteId ?? siteId,
    screenId: all[0]?.entry.screenId ?? screenId,
    items,
    snapshots: items.map((item) => ({
      entryId: item.id,
      number: item.entry.number,
      recordedAt: item.entry.recordedAt,
      recordedBy: item.entry.recordedBy,
      reason: item.entry.reason,
      sha256: item.entry.configuration,
      read: remembered(() => (item === last ? latest() : earlier(item, latest()))),
    })),
    findings,
    lastMayBeUnseen,
    note,
    attachment,
    latest,
  };
}

function remembered<T>(read: () => T): () => T {
  let known: { readonly value: T } | undefined;
  return () => {
    known ??= { value: read() };
    return known.value;
  };
}
