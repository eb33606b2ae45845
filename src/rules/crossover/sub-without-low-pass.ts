import { remove, restore } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const subWithoutLowPass = screenRule({
  code: "crossover/sub-without-low-pass",
  kind: "sound",
  severity: "warning",
  title: "A subwoofer has a low-pass.",
  why: "LFE is meant for the lowest octaves: without a low-pass its hiss and voices are heard from the floor.",
  source: "ITU-R BS.775-3 (LFE up to 120 Hz); that the processor limits it: common practice, no source",
  remedy: "Set a low-pass at about 120 Hz.",
  example: {
    breaks: [remove("/outputs/sub-1-all/lowPass"), remove("/outputs/sub-2-all/lowPass")],
    mends: [restore("/outputs/sub-1-all/lowPass"), restore("/outputs/sub-2-all/lowPass")],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      if (way.band !== "sub" || output.lowPass !== undefined) continue;
      yield { path: ["outputs", index], words: "The subwoofer has no low-pass." };
    }
  },
});
