import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const wayWithoutOutput = screenRule({
  code: "crossover/way-without-output",
  kind: "routing",
  severity: "error",
  title: "Every way of every loudspeaker is fed by an output.",
  why: "A way without an output is a part of the spectrum that is missing, or a filter that nobody can see.",
  source: COMMON_PRACTICE,
  remedy: "Say which output feeds the way, or take the way out.",
  example: {
    breaks: [set("/outputs/sub-2-all/feeds", { kind: "spare" })],
    mends: [set("/outputs/sub-2-all/feeds", { kind: "loudspeaker", loudspeakerId: "sub-2", wayId: "sub" })],
  },
  *check({ configuration, fedWays }) {
    for (const [i, loudspeaker] of configuration.loudspeakers.entries()) {
      for (const [j, way] of loudspeaker.ways.entries()) {
        const isFed = fedWays.some((fed) => fed.loudspeaker.id === loudspeaker.id && fed.way.id === way.id);
        if (isFed) continue;
        yield {
          path: ["loudspeakers", i, "ways", j],
          words: `No output feeds the ${way.band} way.`,
          numbers: { band: way.band },
        };
      }
    }
  },
});
