import { printDb, printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const boostBelowHighPass = screenRule({
  code: "crossover/boost-below-high-pass",
  kind: "protection",
  severity: "warning",
  title: "No driver EQ lifts what the high-pass is there to keep away.",
  why: "A boost below the corner undoes the protection that the corner gives.",
  source: COMMON_PRACTICE,
  remedy: "Take the boost out, or raise the high-pass and look at the crossover again.",
  example: {
    breaks: [
      set("/outputs/center-mf/filters/p1", { id: "p1", kind: "peaking", frequencyHz: 250, gainDb: 6, q: 2 }),
    ],
    mends: [set("/outputs/center-mf/filters/p1/gainDb", -6)],
  },
  *check({ fedWays }) {
    for (const { item: output, index } of fedWays) {
      const { highPass } = output;
      if (highPass === undefined) continue;
      for (const [at, filter] of output.filters.entries()) {
        if (filter.enabled === false || !("gainDb" in filter) || filter.gainDb < MIN_BOOST_DB) continue;
        const lifts = filter.kind === "high-shelf" ? false : filter.frequencyHz < highPass.frequencyHz;
        if (!lifts) continue;
        yield {
          path: ["outputs", index, "filters", at],
          words: `The filter lifts ${printHz(filter.frequencyHz)} by ${printDb(filter.gainDb)}, below the high-pass at ${printHz(highPass.frequencyHz)}.`,
          numbers: {
            frequencyHz: filter.frequencyHz,
            gainDb: filter.gainDb,
            highPassHz: highPass.frequencyHz,
          },
        };
      }
    }
  },
});

const MIN_BOOST_DB = 1;
