import { printHz } from "../../words/index.ts";
import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

const GUARDED: readonly string[] = ["mf", "hf", "vhf"];

export const noHighPass = screenRule({
  code: "crossover/no-high-pass",
  kind: "protection",
  severity: "error",
  title: "Every mid and high way has a high-pass.",
  why: "A compression driver that gets bass is destroyed within seconds.",
  source: COMMON_PRACTICE,
  remedy: "Keep the amplifier of this way off, and set the high-pass that the loudspeaker's data names.",
  example: {
    breaks: [remove("/outputs/center-hf/highPass")],
    mends: [restore("/outputs/center-hf/highPass")],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      if (output.highPass !== undefined || !GUARDED.includes(way.band)) continue;
      const safe =
        way.safeHighPassHz === undefined ? "" : ` Its data asks for ${printHz(way.safeHighPassHz)} or more.`;
      yield {
        path: ["outputs", index],
        words: `The ${way.band} way has no high-pass.${safe}`,
        numbers: { band: way.band, safeHighPassHz: way.safeHighPassHz ?? null },
      };
    }
  },
});
