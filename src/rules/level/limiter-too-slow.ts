import { printMs } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

/** Longest attack that still catches what breaks a driver of the band, in milliseconds: common practice, no source. */
const MAX_ATTACK_MS: Readonly<Record<string, number>> = { mf: 20, hf: 10, vhf: 5 };

export const limiterTooSlow = screenRule({
  code: "level/limiter-too-slow",
  kind: "protection",
  severity: "advice",
  title: "The limiter of a mid or high way is quick, and lets go slowly.",
  why: "A compression driver breaks within milliseconds; a release shorter than the attack distorts.",
  source: COMMON_PRACTICE,
  remedy: "Shorten the attack, lengthen the release.",
  example: {
    breaks: [set("/outputs/center-hf/limiter/attackMs", 50)],
    mends: [set("/outputs/center-hf/limiter/attackMs", 1)],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      const { limiter } = output;
      if (limiter === undefined || !limiter.enabled) continue;
      const { attackMs, releaseMs } = limiter;
      const maxMs = MAX_ATTACK_MS[way.band];
      if (maxMs !== undefined && attackMs > maxMs) {
        yield {
          path: ["outputs", index, "limiter", "attackMs"],
          words: `The attack time is ${printMs(attackMs, 1)}; a ${way.band} way wants ${printMs(maxMs, 0)} or less.`,
          numbers: { attackMs, maxMs },
        };
      } else if (releaseMs < attackMs) {
        yield {
          path: ["outputs", index, "limiter", "releaseMs"],
          words: `The release time of ${printMs(releaseMs, 1)} is shorter than the attack time of ${printMs(attackMs, 1)}.`,
          numbers: { attackMs, releaseMs },
        };
      }
    }
  },
});
