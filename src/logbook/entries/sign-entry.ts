import type { EntrySignature } from "../../model/index.ts";
import {
  keepRecordFile,
  type Logbook,
  recordLine,
  type SigningKey,
  signatureOf,
  withStore,
} from "../medium/index.ts";
import { type EntryQuery, findEntry } from "./read-entry.ts";

/**
 * Adds a signature to an entry that is there already: a second person's, or one that was forgotten.
 * @throws BoothkeepError as `readEntry` and `record`
 */
export function signEntry(logbook: Logbook, query: EntryQuery, key: SigningKey): EntrySignature {
  const { id, entry } = findEntry(logbook, query).item;
  const signature = signatureOf(entry, id, key);
  withStore(logbook.store, "", () => keepRecordFile(logbook.store, signature, [recordLine(signature)]));
  return signature;
}
