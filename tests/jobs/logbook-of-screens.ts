import {
  createLogbook,
  type KeptDocument,
  type Logbook,
  memoryStore,
  record,
} from "../../src/logbook/entries/index.ts";
import type { Configuration, Entry } from "../../src/model/index.ts";

/** A logbook in memory with these configurations, in their order. */
export function logbookOf(
  configurations: readonly Configuration[],
  reason: Entry["reason"] = "as-left",
): Logbook {
  const logbook = createLogbook(memoryStore(), {
    id: "0b4ff3a0-6c59-4e1d-9c1c-3c8a6f1f7d12",
    startedAt: "2026-03-01T10:00:00+01:00",
  });
  for (const configuration of configurations) {
    record(logbook, {
      configuration: configuration as unknown as KeptDocument,
      reason,
      recordedAt: "2026-03-02T23:40:00+01:00",
      recordedBy: "Service team",
    });
  }
  return logbook;
}
