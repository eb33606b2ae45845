import type { Entry, EntrySignature, Withdrawal } from "../../model/index.ts";
import { judgeSignature, type SignatureVerdict, type TrustedKey } from "../signing/index.ts";
import type { LogbookPolicy } from "./policy.ts";
import type { Refusal, SignatureStanding } from "./standing.ts";

/** What the signatures of a record are worth, one verdict for each. */
export function judgeSignatures(
  record: Entry | Withdrawal,
  signatures: readonly EntrySignature[],
  trustedKeys: readonly TrustedKey[],
): readonly SignatureVerdict[] {
  return signatures.map(({ algorithm, publicKey, value }) =>
    judgeSignature(record, { algorithm, publicKey, value }, trustedKeys, record.recordedAt),
  );
}

/** The best first. */
const ORDER = [
  "trusted",
  "retired-key",
  "unknown-key",
  "broken",
] as const satisfies readonly SignatureStanding[];

/** What they are worth together. */
export function signatureStanding(verdicts: readonly SignatureVerdict[]): SignatureStanding {
  return ORDER.find((kind) => verdicts.some((verdict) => verdict.kind === kind)) ?? "none";
}

/** Why the policy does not let an entry be loaded; undefined where it does. */
export function policyRefusal(
  entry: Entry,
  signature: SignatureStanding,
  policy: LogbookPolicy,
): Refusal | undefined {
  if (policy.isUnknown) {
    return {
      code: "logbook.unknown-policy",
      words:
        "The signature policy of this logbook is missing or damaged: nobody can say whose signature is asked for.",
      next: "Copy it from another copy of the logbook: 'boothkeep verify --heal-from OTHER'.",
    };
  }
  if (signature === "broken") {
    return {
      code: "logbook.broken-signature",
      words: `A signature of ${named(entry)} does not match it, and no other one vouches for it.`,
      next: "Do not load this configuration; ask whoever signed it for a fresh copy.",
    };
  }
  if (!policy.restoreNeedsSignature || signature === "trusted") return undefined;
  return {
    code: "logbook.unsigned",
    words: `${WORDS[signature](named(entry))}; the policy of this logbook asks for the signature of a trusted key.`,
    next: "Have the entry signed by somebody whose key the policy lists, or choose an entry that is signed.",
  };
}

const WORDS: Readonly<Record<Exclude<SignatureStanding, "trusted" | "broken">, (name: string) => string>> = {
  none: (name) => `${capital(name)} is not signed`,
  "unknown-key": (name) => `${capital(name)} is signed with a key that nobody listed as trusted`,
  "retired-key": (name) => `${capital(name)} is signed with a key that was retired`,
};

function named(entry: Entry): string {
  return `entry ${entry.number} of ${entry.siteId} / ${entry.screenId}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
