import { faderLevelDb } from "../../profile/index.ts";
import { printDbChange } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const faderOffReference = screenRule({
  code: "operation/fader-off-reference",
  kind: "operation",
  severity: "advice",
  title: "The fader starts near the level at which the room was measured.",
  why: "The room is set up at one mark of the fader: far below it dialogue is lost, above it people complain.",
  source: COMMON_PRACTICE,
  remedy: "Start at the mark of 0 dB, or at the house level that was agreed on.",
  needsProfile: true,
  limits: {
    maxBelowDb: { value: 12, unit: "dB", words: "how far below reference the start may lie" },
  },
  example: {
    breaks: [set("/operation/faderMark", 1)],
    mends: [set("/operation/faderMark", 6)],
  },
  *check({ configuration: { operation }, profile }, { maxBelowDb }) {
    const levelDb = faderLevelDb(profile!.fader, operation.faderMark);
    if (levelDb >= -maxBelowDb) return;
    yield {
      path: ["operation", "faderMark"],
      words: `The fader starts at ${operation.faderMark}, which is ${printDbChange(levelDb)} from reference.`,
      numbers: { mark: operation.faderMark, levelDb },
    };
  },
});
