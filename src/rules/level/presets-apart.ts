import { printDb } from "../../words/index.ts";
import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { siblingPresets } from "../sibling-presets.ts";

export const presetsApart = screenRule({
  code: "level/presets-apart",
  kind: "sound",
  severity: "warning",
  title: "Presets of one format and source have the same level, or say why not.",
  why: "The audience hears a jump between two presets that nobody can explain.",
  source: COMMON_PRACTICE,
  remedy: "Set the same level, or write the reason into the preset.",
  limits: {
    maxDb: { value: 0.5, unit: "dB", words: "largest difference without a reason" },
  },
  example: {
    breaks: [remove("/presets/trailers-51/reason")],
    mends: [restore("/presets/trailers-51/reason")],
  },
  *check(context, { maxDb }) {
    for (const { first, other, index } of siblingPresets(context)) {
      if (Math.abs(other.levelDb - first.levelDb) <= maxDb) continue;
      yield {
        path: ["presets", index, "levelDb"],
        words: `The level is ${printDb(other.levelDb)}, ${printDb(first.levelDb)} in ${first.label}, and no reason is given.`,
        numbers: { levelDb: other.levelDb, otherDb: first.levelDb },
      };
    }
  },
});
