import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const startPresetMissing = screenRule({
  code: "operation/start-preset-missing",
  kind: "operation",
  severity: "error",
  title: "The preset at start-up exists.",
  why: "After a power cut the unit comes up in a state that nobody chose.",
  source: COMMON_PRACTICE,
  remedy: "Choose the preset that the screen should start with.",
  example: {
    breaks: [set("/operation/startPresetId", "feature")],
    mends: [set("/operation/startPresetId", "feature-51")],
  },
  *check({ configuration: { operation }, presets }) {
    const { startPresetId } = operation;
    if (startPresetId === undefined || presets.has(startPresetId)) return;
    yield {
      path: ["operation", "startPresetId"],
      words: `The preset at start-up, '${startPresetId}', does not exist.`,
      numbers: { presetId: startPresetId },
    };
  },
});
