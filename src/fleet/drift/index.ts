export { type Acceptance, type AppliedStandard, acceptanceOf } from "./accepted.ts";
export {
  type DriftCode,
  type DriftedScreen,
  type DriftFinding,
  type DriftGroup,
  DriftGroups,
} from "./groups.ts";
export { deviationsSince, keyOf, type Since, type Snapshot, sinceOf } from "./since.ts";
export { countedBy, entryWords, sinceWords } from "./since-words.ts";
