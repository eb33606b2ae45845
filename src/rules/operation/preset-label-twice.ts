import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const presetLabelTwice = screenRule({
  code: "operation/preset-label-twice",
  kind: "operation",
  severity: "warning",
  title: "No two presets have the same name.",
  why: "The operator sees two equal lines and has to guess.",
  source: COMMON_PRACTICE,
  remedy: "Rename one of them.",
  example: {
    breaks: [set("/presets/trailers-51/label", "Feature 5.1")],
    mends: [set("/presets/trailers-51/label", "Trailers 5.1")],
  },
  *check({ configuration: { presets } }) {
    const seen = new Map<string, number>();
    for (const [index, { label, slot }] of presets.entries()) {
      const key = label.trim().toLowerCase();
      const other = seen.get(key);
      if (other !== undefined) {
        yield {
          path: ["presets", index, "label"],
          words: `The preset in slot ${slot} has the same name as the one in slot ${other}.`,
          numbers: { label, otherSlot: other },
        };
      } else seen.set(key, slot);
    }
  },
});
