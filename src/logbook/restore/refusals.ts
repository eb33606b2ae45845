import type { Finding } from "../../base/findings/index.ts";
import type { RestoreFindingCode } from "./restore-findings.ts";

/** Errors that a person may overrule who knows better. That a unit is another model, nobody can overrule. */
export const OVERRULABLE_FINDINGS: readonly RestoreFindingCode[] = [
  "restore/entry-withdrawn",
  "restore/firmware-outside-range",
];

/**
 * The findings that forbid to write a file to load: errors of the entry that was chosen and of the unit, unless they were
 * and can be accepted. Damage elsewhere in a logbook does not touch an entry that verifies.
 */
export function restoreRefusals(
  findings: readonly Finding[],
  accepted: readonly string[],
): readonly Finding[] {
  const overruled = (code: string) =>
    accepted.includes(code) && (OVERRULABLE_FINDINGS as readonly string[]).includes(code);
  return findings.filter(
    ({ severity, code }) => severity === "error" && code.startsWith("restore/") && !overruled(code),
  );
}
