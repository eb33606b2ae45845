import type { Sha256 } from "../../base/canonical/index.ts";
import type { Withdrawal } from "../../model/index.ts";
import {
  FORMAT_VERSION,
  keepRecordFile,
  type Logbook,
  recordId,
  recordLine,
  requireFit,
  type SigningKey,
  signatureOf,
  withStore,
} from "../medium/index.ts";
import { type EntryQuery, findEntry } from "./read-entry.ts";

/** Who withdraws an entry, when and why. */
export interface WithdrawOptions {
  /** Why the entry is not to be used any more. */
  readonly reason: string;
  /** RFC 3339 with offset. */
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly key?: SigningKey;
}

/**
 * Marks an entry as not to be used any more. The entry stays, and so does what follows it; nothing takes the mark
 * back: record the configuration again instead.
 *
 * @throws BoothkeepError as `readEntry` and `record`
 */
export function withdraw(
  logbook: Logbook,
  query: EntryQuery,
  options: WithdrawOptions,
): { readonly id: Sha256; readonly withdrawal: Withdrawal } {
  const { id: entryId, entry } = findEntry(logbook, query).item;
  const withdrawal: Withdrawal = {
    kind: "boothkeep.withdrawal",
    schemaVersion: FORMAT_VERSION,
    siteId: entry.siteId,
    screenId: entry.screenId,
    entry: entryId,
    reason: options.reason,
    recordedAt: options.recordedAt,
    recordedBy: options.recordedBy,
  };
  requireFit(withdrawal);
  const id = recordId(withdrawal);
  const lines = [recordLine(withdrawal)];
  if (options.key !== undefined) lines.push(recordLine(signatureOf(withdrawal, id, options.key)));
  withStore(logbook.store, "", () => keepRecordFile(logbook.store, withdrawal, lines));
  return { id, withdrawal };
}
