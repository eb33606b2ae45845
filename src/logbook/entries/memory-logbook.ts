import { canonicalText } from "../../base/canonical/index.ts";
import type { Entry, EntrySignature } from "../../model/index.ts";
import {
  createLogbook,
  type KeptDocument,
  keepPart,
  keepRecordFile,
  type Logbook,
  memoryStore,
  recordLine,
  wholeLine,
} from "../medium/index.ts";

/** An entry that came from elsewhere than a logbook, with its configuration. */
export interface LooseEntry {
  readonly entry: Entry;
  readonly configuration: KeptDocument;
  readonly signatures?: readonly EntrySignature[];
}

/** No logbook on a medium: nobody tells this one apart from another. */
const NO_ID = "00000000-0000-0000-0000-000000000000";

/**
 * A logbook in memory that holds these entries, to merge or heal from: a handover pack can give back what a logbook
 * has lost.
 *
 * @param parts bytes of their attachments, as far as they are at hand
 */
export function memoryLogbook(entries: readonly LooseEntry[], parts: readonly Uint8Array[] = []): Logbook {
  const startedAt = entries[0]?.entry.recordedAt ?? "1970-01-01T00:00:00Z";
  const logbook = createLogbook(memoryStore(), { id: NO_ID, startedAt });
  for (const { entry, configuration, signatures = [] } of entries) {
    const lines = [recordLine(entry), wholeLine(canonicalText(configuration)), ...signatures.map(recordLine)];
    keepRecordFile(logbook.store, entry, lines);
  }
  for (const bytes of parts) keepPart(logbook.store, bytes);
  return logbook;
}
