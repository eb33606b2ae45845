export { checkUnit, configurationToLoad, type UnitAtHand } from "./check-unit.ts";
export { type ChooseEntryOptions, type ChosenEntry, chooseEntry } from "./choose-entry.ts";
export { type ConfirmOptions, confirmReadBack } from "./confirm.ts";
export { OVERRULABLE_FINDINGS, restoreRefusals } from "./refusals.ts";
export type { RestoreFindingCode } from "./restore-findings.ts";
