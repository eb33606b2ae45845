import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const nonSyncPreset = screenRule({
  code: "operation/non-sync-preset",
  kind: "operation",
  severity: "error",
  title: "Music between shows has a source and a preset that plays it.",
  why: "The audience comes into a silent room, or hears what the server left on its outputs.",
  source: COMMON_PRACTICE,
  remedy: "Choose the source of the music, and a preset that selects it.",
  example: {
    breaks: [set("/operation/nonSync/presetId", "feature-51")],
    mends: [set("/operation/nonSync/presetId", "music")],
  },
  *check({ configuration: { operation }, presets, sources }) {
    const { nonSync } = operation;
    if (nonSync === undefined) return;
    const preset = presets.get(nonSync.presetId)?.item;
    const numbers = { sourceId: nonSync.sourceId, presetId: nonSync.presetId };
    const path = ["operation", "nonSync", sources.has(nonSync.sourceId) ? "presetId" : "sourceId"];
    if (!sources.has(nonSync.sourceId)) yield { path, words: "The music has no source.", numbers };
    else if (preset === undefined) yield { path, words: "The music has no preset.", numbers };
    else if (preset.sourceId !== nonSync.sourceId) {
      yield { path, words: `The music's preset, ${preset.label}, plays another source.`, numbers };
    }
  },
});
