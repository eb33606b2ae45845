import type { Sha256 } from "../../base/canonical/index.ts";
import type { ErrorCode } from "../../base/errors/index.ts";
import type { Entry, EntrySignature, Withdrawal } from "../../model/index.ts";
import type { SignatureVerdict } from "../signing/index.ts";

/** Enough of an entry to name it to a person. */
export interface NamedEntry {
  readonly id: Sha256;
  readonly number: number;
  readonly reason: Entry["reason"];
  readonly recordedAt: string;
  readonly recordedBy: string;
}

/**
 * What the signatures of a record are worth together: the best that holds. One that does not hold beside one that does
 * costs nothing: anybody can write such a one.
 */
export type SignatureStanding = "trusted" | "retired-key" | "unknown-key" | "broken" | "none";

/** What is known of a unit after it was loaded. */
export type ReadBack =
  | { readonly kind: "none" }
  /** It was read back and holds what was to be loaded, but for rounding where `withinSteps` says so. */
  | { readonly kind: "agrees"; readonly entry: NamedEntry; readonly withinSteps: boolean }
  /** It was read back and holds something else. */
  | { readonly kind: "differs"; readonly entry: NamedEntry; readonly differences: number }
  /** It gives no read-back: a person keyed it in and ticked the entry sheet. */
  | {
      readonly kind: "ticked";
      readonly entry: NamedEntry;
      readonly tickedBy: string;
      readonly tickedAt: string;
      readonly notChecked: readonly string[];
    }
  /** It was read back, but what came of it is lost or does not fit its entry. */
  | { readonly kind: "unknown"; readonly entry: NamedEntry };

/** Why nothing may be loaded from an entry. */
export interface Refusal {
  readonly code: ErrorCode;
  /** A sentence. */
  readonly words: string;
  readonly next: string;
}

/** A withdrawal that does not count, since the policy asks for a signature that it lacks. */
export interface UncountedWithdrawal {
  readonly withdrawal: Withdrawal;
  readonly signature: SignatureStanding;
}

/** All that is known of an entry but for its configuration, which {@link checkEntry} looks at. */
export interface Standing {
  readonly signature: SignatureStanding;
  /** What each of its signatures is worth. */
  readonly verdicts: readonly SignatureVerdict[];
  readonly uncountedWithdrawals: readonly UncountedWithdrawal[];
  /** The last read-back that names this entry, or that it holds. */
  readonly readBack: ReadBack;
  /** Other entries that none follows, where the screen was recorded in two places apart. */
  readonly recordedApart: readonly NamedEntry[];
  /** Whether the unit that was recorded last is of another model. */
  readonly isOfAnotherModel: boolean;
  /** Absent: nothing speaks against it, as far as its records say. */
  readonly refusal?: Refusal;
}

/** An entry with what was said about it later, judged. */
export interface HistoryItem {
  readonly id: Sha256;
  readonly entry: Entry;
  /** Not to be used any more, and why: those that count. Empty for an entry that holds. */
  readonly withdrawals: readonly Withdrawal[];
  readonly signatures: readonly EntrySignature[];
  /** No other entry of the screen follows this one. More than one where a screen was recorded in two places apart. */
  readonly isLatest: boolean;
  readonly standing: Standing;
}

/** A record that something here names, and that is not here. */
export interface UnseenRecord {
  /** Its id, or the first digits of it. */
  readonly id: string;
  readonly isDamaged: boolean;
}

/** What of a screen nobody can see here. */
export interface Unseen {
  readonly records: readonly UnseenRecord[];
  /** Bound files of the site that are missing or do not say what they hold: any screen of it may lack any number. */
  readonly boundFiles: readonly string[];
}

/** "entry 7 (as left, 2026-03-02, ab12cd34)". */
export function entryWords({ id, number, reason, recordedAt }: NamedEntry): string {
  return `entry ${number} (${reason.replaceAll("-", " ")}, ${recordedAt.slice(0, 10)}, ${id.slice(0, 8)})`;
}

export function nameOf({ id, entry }: Pick<HistoryItem, "id" | "entry">): NamedEntry {
  const { number, reason, recordedAt, recordedBy } = entry;
  return { id, number, reason, recordedAt, recordedBy };
}
