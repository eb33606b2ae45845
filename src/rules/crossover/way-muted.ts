import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const wayMuted = screenRule({
  code: "crossover/way-muted",
  kind: "sound",
  severity: "warning",
  title: "No output that feeds a loudspeaker is left muted.",
  why: "Ways are muted one by one to test them; one that stays muted is heard as a dull or thin loudspeaker, or not at all.",
  source: COMMON_PRACTICE,
  remedy: "Unmute the output, at low level first.",
  example: {
    breaks: [set("/outputs/center-hf/mute", true)],
    mends: [set("/outputs/center-hf/mute", false)],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      if (!output.mute) continue;
      yield {
        path: ["outputs", index, "mute"],
        words: `The ${way.band} way is muted.`,
        numbers: { band: way.band },
      };
    }
  },
});
