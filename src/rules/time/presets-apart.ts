import { printMs } from "../../words/index.ts";
import { remove, set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { siblingPresets } from "../sibling-presets.ts";

export const presetsApart = screenRule({
  code: "time/presets-apart",
  kind: "sound",
  severity: "warning",
  title: "Presets of one format and source have the same program delay, or say why not.",
  why: "The picture is as late for one as for the other: one of the delays was forgotten.",
  source: COMMON_PRACTICE,
  remedy: "Set the same delay, or write the reason into the preset.",
  example: {
    breaks: [
      set("/presets/trailers-51/delayMs", 60),
      set("/presets/trailers-51/levelDb", 0),
      remove("/presets/trailers-51/reason"),
    ],
    mends: [set("/presets/trailers-51/reason", "Trailers come by the second server, 20 ms later.")],
  },
  *check(context) {
    for (const { first, other, index } of siblingPresets(context)) {
      const apartMs = other.delayMs - first.delayMs;
      if (Math.abs(apartMs) < 1) continue;
      yield {
        path: ["presets", index, "delayMs"],
        words: `The program delay is ${printMs(other.delayMs)}, ${printMs(first.delayMs)} in ${first.label}, and no reason is given.`,
        numbers: { delayMs: other.delayMs, otherMs: first.delayMs },
      };
    }
  },
});
