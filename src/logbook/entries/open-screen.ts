import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import { type Logbook, placeOf } from "../medium/index.ts";
import {
  type CheckedEntry,
  entryCheck,
  type HistoryItem,
  isRefusal,
  judgeScreen,
  refusalError,
  standingGround,
} from "../standing/index.ts";
import { type ScreenNote, screenNote } from "./history.ts";

/** One screen with its entries, to read several of them. */
export interface OpenScreen {
  /** In their order. */
  readonly items: readonly HistoryItem[];
  /** What of it is to be said; undefined where there is nothing. */
  readonly note: ScreenNote | undefined;
  readonly findings: readonly Finding[];
  /**
   * An entry with its configuration, checked.
   * @throws BoothkeepError logbook.lost-configuration, logbook.other-screen, logbook.not-canonical
   */
  readonly read: (item: HistoryItem) => CheckedEntry;
}

/**
 * Opens a screen of a logbook.
 * @throws BoothkeepError logbook.no-entry where it has none; logbook.damaged-records where it has none that can be read and
 *   something is missing or damaged; input.no-permission, output.failed
 */
export function openScreen(logbook: Logbook, siteId: string, screenId: string): OpenScreen {
  const ground = standingGround(logbook);
  const screen = judgeScreen(ground, placeOf(siteId, screenId));
  // Two ids may share a folder only by a fault in a hash; names are compared nonetheless.
  const items = screen.items.filter(({ entry }) => entry.siteId === siteId && entry.screenId === screenId);
  const found = screenNote(screen);
  const note = found && { ...found, siteId, screenId };
  if (items.length === 0) throw noEntry(siteId, screenId, note);
  const check = entryCheck(ground, screen);
  return {
    items,
    note,
    findings: [...ground.policy.findings, ...screen.findings],
    read: (item) => {
      const checked = check(item);
      if (isRefusal(checked)) throw refusalError(checked, item.id);
      return checked;
    },
  };
}

function noEntry(siteId: string, screenId: string, note: ScreenNote | undefined): BoothkeepError {
  const name = `site '${siteId}', screen '${screenId}'`;
  if (note === undefined) {
    return new BoothkeepError("logbook.no-entry", `The logbook has no entry of ${name}.`, {
      next: "Check the names: 'boothkeep history' lists which sites and screens are there.",
    });
  }
  return new BoothkeepError(
    "logbook.damaged-records",
    `No entry of ${name} can be read here, and records are missing or damaged.`,
    {
      next: "Copy what is missing from another copy of the logbook, or run 'boothkeep verify': it says what.",
    },
  );
}
