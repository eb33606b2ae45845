import { BoothkeepError } from "../../base/errors/index.ts";
import type { AppliedStandard, Snapshot } from "../../fleet/drift/index.ts";
import {
  type HistoryItem,
  type Logbook,
  type LogbookScreen,
  readAttachment,
  unseenWords,
} from "../../logbook/entries/index.ts";
import { type Configuration, readDocument, type Standard } from "../../model/index.ts";
import { appliedStandards, STANDARD_ATTACHMENT } from "./applied-standards.ts";
import { readScreenHistory } from "./screen-history.ts";

/** One screen of many, as it stands. */
export interface FleetScreen {
  /** "lantern-mill/screen-1" */
  readonly name: string;
  readonly configuration: Configuration;
  /** Its entries in their order, the last being the configuration; absent: it comes from no logbook. */
  readonly snapshots?: readonly Snapshot[] | undefined;
  /** Standards that were applied to it, read when they are asked for; absent: it comes from no logbook. */
  readonly applied?: (() => readonly AppliedStandard[]) | undefined;
  /** The standard that it followed last, as confirmed by reading back; read when it is asked for. */
  readonly followed?: (() => Standard | undefined) | undefined;
}

/** A screen of which nothing is known but its configuration. */
export function fleetScreen(configuration: Configuration): FleetScreen {
  const { siteId, screenId } = configuration.screen;
  return { name: `${siteId}/${screenId}`, configuration };
}

/**
 * A screen of a logbook with its last configuration; undefined for a screen without entries that hold.
 * @throws BoothkeepError logbook.lost-configuration where nobody can tell how the screen stands; logbook.unsigned,
 *   logbook.broken-signature, logbook.unknown-policy where its last entry is not to be trusted; document.*
 */
export function fleetScreenIn(logbook: Logbook, screen: LogbookScreen): FleetScreen | undefined {
  const { items, snapshots, latest, siteId, screenId, lastMayBeUnseen, note } = readScreenHistory(screen);
  if (lastMayBeUnseen) {
    const words = note && unseenWords(`${siteId} / ${screenId}`, note.unseen);
    throw lost(`${words ?? ""} The last entry may be among it, so nobody can tell how the screen is.`.trim());
  }
  const last = items.at(-1);
  if (last === undefined) return undefined;
  const { refusal } = last.standing;
  if (refusal !== undefined) {
    throw new BoothkeepError(refusal.code, refusal.words, { place: { id: last.id }, next: refusal.next });
  }
  const configuration = latest();
  if (configuration === undefined) {
    throw lost(
      `The last configuration of ${siteId}/${screenId} cannot be put together: something it rests on is missing or damaged.`,
    );
  }
  return {
    ...fleetScreen(configuration),
    snapshots,
    applied: () => appliedStandards(logbook, items, snapshots),
    followed: () => followedBy(logbook, items),
  };
}

function followedBy(logbook: Logbook, items: readonly HistoryItem[]): Standard | undefined {
  const applied = items.findLast(({ entry }) => entry.reason === "standard-applied");
  const attached = applied?.entry.attachments?.find(({ name }) => name === STANDARD_ATTACHMENT);
  const bytes = attached && readAttachment(logbook, attached.sha256);
  return bytes && readDocument(bytes, { expect: "boothkeep.standard" }).document;
}

function lost(words: string): BoothkeepError {
  return new BoothkeepError("logbook.lost-configuration", words, {
    next: "Heal the logbook from another copy: 'boothkeep verify --heal-from OTHER'.",
  });
}
