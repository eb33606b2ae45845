import { printDb } from "../../words/index.ts";
import type { FedWay } from "../context.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { wayPairs } from "../way-pairs.ts";

export const waysFedApart = screenRule({
  code: "crossover/ways-fed-apart",
  kind: "routing",
  severity: "error",
  title: "All ways of a loudspeaker play the same channels at the same share.",
  why: "The bass of one channel under the treble of another: every cable looks right and the sound is wrong.",
  source: COMMON_PRACTICE,
  remedy: "Give the ways the same mix; set their levels by the output gain.",
  example: {
    breaks: [set("/outputs/center-hf/mix/C/gainDb", -3)],
    mends: [set("/outputs/center-hf/mix/C/gainDb", 0)],
  },
  *check(context) {
    for (const { lower, upper } of wayPairs(context)) {
      const [lowerMix, upperMix] = [mixOf(lower), mixOf(upper)];
      const channels = [...new Set([...lowerMix.keys(), ...upperMix.keys()])];
      const different = channels.find((channel) => lowerMix.get(channel) !== upperMix.get(channel));
      if (different === undefined) continue;
      const share = (gainDb: number | undefined) =>
        gainDb === undefined ? "not at all" : `at ${printDb(gainDb)}`;
      yield {
        path: ["outputs", upper.index, "mix"],
        words: `The ${upper.way.band} way plays ${different} ${share(upperMix.get(different))}, the ${lower.way.band} way ${share(lowerMix.get(different))}.`,
        numbers: { channelId: different },
      };
    }
  },
});

function mixOf({ item }: FedWay): ReadonlyMap<string, number> {
  return new Map(item.mix.map(({ channelId, gainDb }) => [channelId, gainDb]));
}
