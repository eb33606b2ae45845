import { set } from "../edits.ts";
import { presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const positionUndefined = screenRule({
  code: "format/position-undefined",
  kind: "routing",
  severity: "error",
  title: "A 6.1 program comes from a source that labels its channels.",
  why: "The recommendation for positions has no column for 6.1: where the rear center channel stands would be a guess.",
  source: "ISDCF Document 4, 2017-06-29 (columns 5.1, 7.1DS, 7.1SDS)",
  remedy: "Set the source's assignment to as-labelled and say what each channel carries.",
  example: {
    breaks: [set("/presets/trailers-51/format", "6.1")],
    mends: [set("/presets/trailers-51/format", "5.1")],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      const source = context.sources.get(preset.sourceId)?.item;
      if (preset.format !== "6.1" || source?.assignment !== "isdcf-doc4-2017") continue;
      yield {
        path: ["presets", index, "format"],
        words: `${source.label} orders its channels by ISDCF Document 4, which gives Center Surround (Cs) no position.`,
        numbers: { sourceId: source.id },
      };
    }
  },
});
