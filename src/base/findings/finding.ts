/** How much a finding matters, most serious first. */
export const SEVERITIES = ["error", "warning", "advice"] as const;
/** How grave a finding is. */
export type Severity = (typeof SEVERITIES)[number];

/**
 * What a finding is about, most serious first: `protection` (a filter, limiter or emergency mute that guards people
 * or drivers), `sound`, `routing`, `operation`, `record` (labels, dates).
 */
export const FINDING_KINDS = ["protection", "sound", "routing", "operation", "record"] as const;
/** What a finding is about. */
export type FindingKind = (typeof FINDING_KINDS)[number];

/** Where in a configuration: by ids for people and merging, by position for editors. */
export interface Place {
  /** JSON Pointer (RFC 6901) into the document as read; "" is the whole document. */
  readonly pointer: string;
  /** In the engineer's words, from the screen's side: "Screen left, hf way"; "Feature 7.1, Left Side Surround". */
  readonly words: string;
}

/** A named figure of a finding. The unit stands in the name: `fromHz`, `maxDb`. */
export type FindingNumbers = Readonly<Record<string, number | string | boolean | null>>;

/**
 * One thing that a check, a comparison or an audit reports. Plain data: reports draw it, scripts read it.
 */
export interface Finding {
  /** Stable code, lower-case words joined by hyphens, family first: `crossover/no-high-pass`. */
  readonly code: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly place: Place;
  /** One sentence that says what is wrong or what changed, with its numbers and units. */
  readonly words: string;
  readonly numbers: FindingNumbers;
  /** What to do about it, as a sentence. */
  readonly remedy?: string;
  /** Standard and clause, or "common practice, no source". */
  readonly source?: string;
}

/** Most serious first: severity, then kind, then code, then place. A total order, so reports are stable. */
export function compareFindings(a: Finding, b: Finding): number {
  return (
    SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) ||
    FINDING_KINDS.indexOf(a.kind) - FINDING_KINDS.indexOf(b.kind) ||
    compareText(a.code, b.code) ||
    compareText(a.place.pointer, b.place.pointer) ||
    compareText(a.words, b.words)
  );
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
