import type { HistoryItem } from "../entries/index.ts";
import type { Imprint } from "./imprint.ts";

/**
 * What a logbook says of a paper.
 * - `agrees`: the paper's entry is there and holds the paper's settings
 * - `contradicts`: the paper's entry is there and holds other settings: one of the two is not what it says
 * - `other-entries`: not the paper's entry, but other entries of the screen hold just these settings
 * - `unknown`: nothing of this screen holds these settings
 */
export type PaperVerdict = "agrees" | "contradicts" | "other-entries" | "unknown";

/** What a printed sheet is worth against a logbook. */
export interface PaperJudgement {
  readonly verdict: PaperVerdict;
  readonly imprint: Imprint;
  /** The paper's entry; for a paper without one, and where it is not there, the last that holds its settings. */
  readonly item?: HistoryItem;
  /** Every entry of the screen that holds the paper's settings, in their order. */
  readonly same: readonly HistoryItem[];
  /** Entries recorded after {@link item} with other settings, not withdrawn: what the unit may hold today. */
  readonly laterChanged: readonly HistoryItem[];
}

/**
 * Matches a paper with the entries of a logbook.
 *
 * @param items the entries of the paper's screen in their order, as `history` gives them
 */
export function judgePaper(imprint: Imprint, items: readonly HistoryItem[]): PaperJudgement {
  const own = items.filter(
    ({ entry }) => entry.siteId === imprint.siteId && entry.screenId === imprint.screenId,
  );
  const same = own.filter(({ entry }) => entry.configuration === imprint.settingsSha256);
  const named =
    imprint.entry === undefined ? undefined : own.find(({ id }) => id.startsWith(imprint.entry!.id));
  const item = named ?? same.at(-1);
  const laterChanged =
    item === undefined
      ? []
      : own.filter(
          ({ entry, withdrawals }) =>
            entry.number > item.entry.number &&
            withdrawals.length === 0 &&
            entry.configuration !== item.entry.configuration,
        );
  return {
    verdict: verdictOf(imprint, named, same),
    imprint,
    ...(item === undefined ? {} : { item }),
    same,
    laterChanged,
  };
}

function verdictOf(
  { entry, settingsSha256 }: Imprint,
  named: HistoryItem | undefined,
  same: readonly HistoryItem[],
): PaperVerdict {
  if (named !== undefined) {
    const holds = named.entry.configuration === settingsSha256 && named.entry.number === entry?.number;
    return holds ? "agrees" : "contradicts";
  }
  if (same.length === 0) return "unknown";
  return entry === undefined ? "agrees" : "other-entries";
}
