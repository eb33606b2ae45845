import type { Finding, FindingKind, FindingNumbers, Severity } from "../../base/findings/index.ts";

interface FindingFacts {
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly pointer: string;
  readonly place: string;
  readonly remedy?: string;
}

/** Everything that a restore reports, with what is always the same about it. Common practice, no source. */
const FINDINGS = {
  "restore/entry-passed-over": {
    kind: "record",
    severity: "warning",
    pointer: "",
    place: "Logbook",
  },
  "restore/entry-withdrawn": {
    kind: "record",
    severity: "error",
    pointer: "",
    place: "Logbook",
    remedy: "Take another entry, unless you know why this one was withdrawn.",
  },
  "restore/not-as-left": {
    kind: "record",
    severity: "warning",
    pointer: "",
    place: "Logbook",
    remedy: "Take the last as-left entry, unless you know that this one is wanted.",
  },
  "restore/newer-entry": {
    kind: "record",
    severity: "advice",
    pointer: "",
    place: "Logbook",
    remedy: "Compare the newer entry with the chosen one ('boothkeep compare') and decide.",
  },
  "restore/another-model": {
    kind: "protection",
    severity: "error",
    pointer: "/unit/profileId",
    place: "Unit",
    remedy:
      "Say which model is in the rack now: '--unit MODEL'. For another model, re-express the configuration first: 'boothkeep migrate'.",
  },
  "restore/model-named": {
    kind: "record",
    severity: "warning",
    pointer: "/unit/profileId",
    place: "Unit",
    remedy: "Make sure that the unit in the rack is the one that you named.",
  },
  "restore/read-back-differs": {
    kind: "record",
    severity: "warning",
    pointer: "",
    place: "Unit",
    remedy: "Load again, amplifiers off, and confirm ('boothkeep confirm') until the read-back agrees.",
  },
  "restore/records-unseen": {
    kind: "record",
    severity: "warning",
    pointer: "",
    place: "Logbook",
    remedy: "What is missing may say that this entry is not to be used, or be a newer one.",
  },
  "restore/recorded-apart": {
    kind: "record",
    severity: "error",
    pointer: "",
    place: "Logbook",
    remedy: "Compare the two ('boothkeep compare') and name one with '--entry'.",
  },
  "restore/other-model": {
    kind: "protection",
    severity: "error",
    pointer: "/unit/profileId",
    place: "Unit",
    remedy: "Do not load this file; re-express the configuration first: 'boothkeep migrate'.",
  },
  "restore/other-profile-revision": {
    kind: "record",
    severity: "advice",
    pointer: "/unit/profileRevision",
    place: "Unit",
    remedy: "Validate the configuration against the profile at hand: 'boothkeep validate'.",
  },
  "restore/sample-rate": {
    kind: "sound",
    severity: "error",
    pointer: "/unit/sampleRateHz",
    place: "Unit",
    remedy: "Re-express the configuration for a rate that the unit has: 'boothkeep migrate'.",
  },
  "restore/firmware-outside-range": {
    kind: "protection",
    severity: "error",
    pointer: "/unit/firmware",
    place: "Unit",
    remedy:
      "Load other firmware, or a profile that holds for this one; the same numbers may mean something else there.",
  },
  "restore/other-firmware": {
    kind: "operation",
    severity: "advice",
    pointer: "/unit/firmware",
    place: "Unit",
    remedy: "Read back and confirm after loading.",
  },
  "restore/firmware-unknown": {
    kind: "operation",
    severity: "warning",
    pointer: "/unit/firmware",
    place: "Unit",
    remedy: "Read the firmware version off the unit and give it with '--firmware'.",
  },
  "restore/other-serial": {
    kind: "record",
    severity: "advice",
    pointer: "/unit/serial",
    place: "Unit",
    remedy: "Check that this is the unit that was put in; its serial number goes into the file.",
  },
  "restore/serial-unknown": {
    kind: "record",
    severity: "warning",
    pointer: "/unit/serial",
    place: "Unit",
    remedy: "Read the serial number off the unit and give it with '--serial'.",
  },
} as const satisfies Record<string, FindingFacts>;

/** What can be found when a configuration is restored. */
export type RestoreFindingCode = keyof typeof FINDINGS;

export interface RestoreFindingWords {
  readonly words: string;
  readonly numbers?: FindingNumbers;
  /** Instead of what is always advised. */
  readonly remedy?: string;
}

/** A finding of a restore. */
export function restoreFinding(
  code: RestoreFindingCode,
  { words, numbers = {}, remedy }: RestoreFindingWords,
): Finding {
  const facts: FindingFacts = FINDINGS[code];
  const advice = remedy ?? facts.remedy;
  return {
    code,
    kind: facts.kind,
    severity: facts.severity,
    place: { pointer: facts.pointer, words: facts.place },
    words,
    numbers,
    ...(advice !== undefined && { remedy: advice }),
    source: "common practice, no source",
  };
}
