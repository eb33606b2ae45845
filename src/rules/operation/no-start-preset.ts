import { remove, set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const noStartPreset = screenRule({
  code: "operation/no-start-preset",
  kind: "operation",
  severity: "advice",
  title: "A preset is chosen for start-up.",
  why: "After a power cut the unit comes up with what it had last, or with nothing.",
  source: COMMON_PRACTICE,
  remedy: "Choose the preset that the screen should start with.",
  example: {
    breaks: [remove("/operation/startPresetId")],
    mends: [set("/operation/startPresetId", "music")],
  },
  *check({ configuration: { operation, presets } }) {
    if (operation.startPresetId !== undefined || presets.length === 0) return;
    yield { path: ["operation"], words: "No preset is chosen for start-up." };
  },
});
