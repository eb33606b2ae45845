import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const pagingPreset = screenRule({
  code: "operation/paging-preset",
  kind: "protection",
  severity: "error",
  title: "The paging microphone has a source and a preset that plays it.",
  why: "Announcements are how the staff speaks to a full room when something is wrong.",
  source: COMMON_PRACTICE,
  remedy: "Choose the microphone's source and a preset that selects it, and test it.",
  example: {
    breaks: [set("/operation/paging/presetId", "music")],
    mends: [set("/operation/paging/presetId", "announcement")],
  },
  *check({ configuration: { operation }, presets, sources }) {
    const { paging } = operation;
    if (paging === undefined) return;
    const preset = presets.get(paging.presetId)?.item;
    const numbers = { sourceId: paging.sourceId, presetId: paging.presetId };
    const path = ["operation", "paging", sources.has(paging.sourceId) ? "presetId" : "sourceId"];
    if (!sources.has(paging.sourceId)) yield { path, words: "The microphone has no source.", numbers };
    else if (preset === undefined) yield { path, words: "The microphone has no preset.", numbers };
    else if (preset.sourceId !== paging.sourceId) {
      yield { path, words: `The microphone's preset, ${preset.label}, plays another source.`, numbers };
    }
  },
});
