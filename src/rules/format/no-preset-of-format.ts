import { remove, restore, set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const noPresetOfFormat = screenRule({
  code: "format/no-preset-of-format",
  kind: "operation",
  severity: "warning",
  title: "The auditorium's own format has a preset.",
  why: "A 7.1DS room that only ever recalls 5.1 presets has loudspeakers that play the wrong thing or nothing.",
  source: COMMON_PRACTICE,
  remedy: "Add a preset of the auditorium's format.",
  example: {
    breaks: [remove("/presets/feature-71ds"), set("/automation/cue-feature/action/presetId", "feature-51")],
    mends: [restore("/presets/feature-71ds")],
  },
  *check({ configuration: { screen, presets } }) {
    if (presets.length === 0 || presets.some(({ format }) => format === screen.format)) return;
    yield {
      path: ["presets"],
      words: `The screen is ${screen.format}; no preset is.`,
      numbers: { format: screen.format },
    };
  },
});
