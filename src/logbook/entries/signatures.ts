import { BoothkeepError } from "../../base/errors/index.ts";
import type { Entry, EntrySignature } from "../../model/index.ts";
import { judgeSignature, type SignatureVerdict, type TrustedKey } from "../signing/index.ts";
import type { HistoryItem } from "./history.ts";
import type { LogbookPolicy } from "./policy.ts";
import type { LogbookRecord } from "./records.ts";

/** What the signatures of a record are worth, one verdict for each. */
export function judgeSignatures(
  record: Exclude<LogbookRecord, EntrySignature>,
  signatures: readonly EntrySignature[],
  trustedKeys: readonly TrustedKey[],
): readonly SignatureVerdict[] {
  return signatures.map(({ algorithm, publicKey, value }) =>
    judgeSignature(record, { algorithm, publicKey, value }, trustedKeys),
  );
}

/**
 * Holds an entry against the policy before its configuration goes to a unit.
 * @throws BoothkeepError logbook.broken-signature, logbook.unsigned
 */
export function requireRestorable(
  item: Pick<HistoryItem, "id" | "entry" | "signatures">,
  policy: LogbookPolicy,
): void {
  const verdicts = judgeSignatures(item.entry, item.signatures, policy.trustedKeys);
  if (verdicts.some((verdict) => verdict.kind === "broken")) {
    throw new BoothkeepError(
      "logbook.broken-signature",
      `A signature of ${named(item.entry)} does not hold.`,
      {
        place: { id: item.id },
        next: "Do not load this configuration; ask whoever signed it for a fresh copy.",
      },
    );
  }
  if (!policy.restoreNeedsSignature || verdicts.some((verdict) => verdict.kind === "trusted")) return;
  throw new BoothkeepError(
    "logbook.unsigned",
    `${named(item.entry)} carries no signature of a trusted key, and the policy of this logbook asks for one.`,
    {
      place: { id: item.id },
      next: "Have the entry signed by somebody whose key the policy lists, or choose an entry that is signed.",
    },
  );
}

function named(entry: Entry): string {
  return `Entry ${entry.number} of ${entry.siteId} / ${entry.screenId}`;
}
