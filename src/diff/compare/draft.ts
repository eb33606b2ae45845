import type { FindingKind, FindingNumbers, Severity } from "../../base/findings/index.ts";
import type { ChangeEffect, ComparisonCurve } from "../../model/index.ts";
import type { Change } from "../changes/index.ts";

/** What a finding is about, so that the same finding at many places can be told in one sentence. */
export interface Subject {
  /** "Screen left, hf way" */
  readonly words: string;
  readonly pointer: string;
  /** What sort of thing it is and which, where several together have a name of their own ("All screen channels"). */
  readonly item?: {
    readonly kind: "channel" | "output" | "loudspeaker" | "preset";
    readonly id: string;
    /** What narrows it: "EQ set Feature". */
    readonly of?: string;
  };
}

/** A finding as an explainer says it, about one place; equal ones are joined afterwards. */
export interface Draft {
  readonly code: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly subject: Subject;
  /** Drafts of one code with the same text here are one finding at several places. Absent: stands alone. */
  readonly alike?: string;
  readonly words: string;
  readonly before?: string;
  readonly after?: string;
  readonly effects?: readonly ChangeEffect[];
  readonly numbers?: FindingNumbers;
  readonly remedy?: string;
  readonly source?: string;
  readonly curves?: readonly ComparisonCurve[];
  /** The raw changes that it accounts for; empty only for what is no change (another key). */
  readonly causes: readonly Change[];
}
