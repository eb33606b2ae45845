import type { DocumentPath } from "../../model/index.ts";
import { faderLevelDb } from "../../profile/index.ts";
import { printDbChange } from "../../words/index.ts";
import type { RuleContext } from "../context.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

const MAX_ABOVE_DB = 3;

export const faderTooLoud = screenRule({
  code: "operation/fader-too-loud",
  kind: "protection",
  severity: "warning",
  title: "Nothing sets the fader above reference by itself.",
  why: "At reference a film already reaches 105 dB from one channel: more by automation, with nobody in the booth, harms hearing.",
  source:
    "SMPTE RP 200:2012 as quoted in public texts (85 dBC at −20 dBFS); the margin: common practice, no source",
  remedy: "Set the mark of 0 dB or below.",
  needsProfile: true,
  example: {
    breaks: [set("/automation/cue-fader/action/faderMark", 9.5)],
    mends: [set("/automation/cue-fader/action/faderMark", 7)],
  },
  *check(context) {
    for (const [path, mark] of faderMarks(context)) {
      const levelDb = faderLevelDb(context.profile!.fader, mark);
      if (levelDb <= MAX_ABOVE_DB) continue;
      yield {
        path,
        words: `The fader is set to ${mark}, which is ${printDbChange(levelDb)} from reference.`,
        numbers: { mark, levelDb },
      };
    }
  },
});

function* faderMarks({ configuration }: RuleContext): Iterable<readonly [DocumentPath, number]> {
  yield [["operation", "faderMark"], configuration.operation.faderMark];
  for (const [index, { faderMark }] of configuration.presets.entries()) {
    if (faderMark !== undefined) yield [["presets", index, "faderMark"], faderMark];
  }
  for (const [index, { action }] of configuration.automation.entries()) {
    if (action.kind === "set-fader") yield [["automation", index, "action", "faderMark"], action.faderMark];
  }
}
