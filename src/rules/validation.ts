import type { Finding } from "../base/findings/index.ts";

/** What a check of one configuration found. */
export interface Validation {
  /** Most serious first. */
  readonly findings: readonly Finding[];
  /** Findings of protection rules that someone has taken responsibility for: never silent, told apart. */
  readonly acknowledged: readonly AcknowledgedFinding[];
  /** What the settings did and could not do, with their reasons. */
  readonly notes: readonly SettingNote[];
}

/** A finding that someone answers for. */
export interface AcknowledgedFinding {
  readonly finding: Finding;
  readonly by: string;
  readonly reason: string;
}

/** What one setting did. */
export interface SettingNote {
  readonly settingId: string;
  readonly code: string;
  readonly kind: "off" | "limit" | "acknowledged" | "refused" | "unknown" | "unused";
  /** A sentence that ends with the reason. */
  readonly words: string;
}
