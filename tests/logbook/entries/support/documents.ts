import type { KeptDocument, RecordOptions } from "../../../../src/logbook/entries/index.ts";

/** A small document that has what a logbook asks of a configuration. */
export function configuration(
  values: Readonly<Record<string, unknown>> = {},
  { siteId = "harbour-lights", screenId = "screen-3", profileId = "tern-16", serial = "T16-00417" } = {},
): KeptDocument {
  return {
    kind: "boothkeep.configuration",
    schemaVersion: "1.0.0",
    screen: { siteId, screenId },
    unit: { profileId, serial },
    outputs: [
      { id: "left-hf", gainDb: -3.5, highPass: { family: "linkwitz-riley", frequencyHz: 900, order: 4 } },
      { id: "left-lf", gainDb: 0, highPass: { family: "butterworth", frequencyHz: 40, order: 2 } },
    ],
    ...values,
  };
}

/** What a recording needs besides the configuration; `minute` makes distinct ones. */
export function circumstances(minute = 0): Omit<RecordOptions, "configuration"> {
  const at = new Date(Date.UTC(2026, 2, 2, 22, minute)).toISOString().replace(".000Z", "+00:00");
  return { reason: "as-left", recordedAt: at, recordedBy: "service team north" };
}

/** A fixed identity for logbooks of tests. */
export const NEW_LOGBOOK = {
  id: "7c9e6679-7425-40de-944b-e07fc1f90ae7",
  startedAt: "2026-03-02T09:00:00+01:00",
} as const;
