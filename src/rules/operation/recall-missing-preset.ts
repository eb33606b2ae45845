import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const recallMissingPreset = screenRule({
  code: "operation/recall-missing-preset",
  kind: "operation",
  severity: "error",
  title: "Automation recalls presets that exist.",
  why: "At the cue nothing happens: the feature plays with the preset of the music before it.",
  source: COMMON_PRACTICE,
  remedy: "Choose the preset that the cue is for.",
  example: {
    breaks: [set("/automation/cue-feature/action/presetId", "feature-71")],
    mends: [set("/automation/cue-feature/action/presetId", "feature-71ds")],
  },
  *check({ configuration, presets }) {
    for (const [index, { action }] of configuration.automation.entries()) {
      if (action.kind !== "recall-preset" || presets.has(action.presetId)) continue;
      yield {
        path: ["automation", index, "action", "presetId"],
        words: `The cue recalls '${action.presetId}', which does not exist.`,
        numbers: { presetId: action.presetId },
      };
    }
  },
});
