import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const surroundWithoutHighPass = screenRule({
  code: "crossover/surround-without-high-pass",
  kind: "protection",
  severity: "advice",
  title: "Small surround loudspeakers have a high-pass.",
  why: "Surround channels carry bass that an eight-inch cabinet on the wall cannot move.",
  source: COMMON_PRACTICE,
  remedy: "Set a high-pass where the cabinet's data says that its range begins.",
  example: {
    breaks: [remove("/outputs/left-side/highPass"), remove("/outputs/right-side/highPass")],
    mends: [restore("/outputs/left-side/highPass"), restore("/outputs/right-side/highPass")],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way, loudspeaker } of fedWays) {
      const isSurround = loudspeaker.placement.startsWith("surround");
      if (!isSurround || way.band !== "full" || output.highPass !== undefined) continue;
      yield { path: ["outputs", index], words: "The surround loudspeaker has no high-pass." };
    }
  },
});
