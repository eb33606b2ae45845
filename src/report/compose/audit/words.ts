import type { AuditCheckName, AuditState } from "../../../model/index.ts";

/** What a column is called. */
export const CHECK_WORDS: Readonly<Record<AuditCheckName, string>> = {
  readable: "Records",
  recorded: "Last entry",
  valid: "Valid",
  standard: "Standard",
  signed: "Signed",
  "as-left": "As left",
  firmware: "Firmware",
  doubles: "Doubles",
  calibration: "Calibration",
  twins: "Twins",
};

/** A state as a word that needs no color. */
export const STATE_WORDS: Readonly<Record<AuditState, string>> = {
  good: "good",
  advice: "note",
  warning: "look",
  error: "act",
  unknown: "unknown",
  none: "not held",
};

/** The worst last. */
export const STATE_ORDER: readonly AuditState[] = ["none", "good", "unknown", "advice", "warning", "error"];

/** The worst of several states. */
export function worstState(states: readonly AuditState[]): AuditState {
  return states.reduce<AuditState>(
    (worst, state) => (STATE_ORDER.indexOf(state) > STATE_ORDER.indexOf(worst) ? state : worst),
    "none",
  );
}

/** Whether there is something to look at. */
export function isToLookAt(state: AuditState): boolean {
  return state !== "good" && state !== "none";
}
