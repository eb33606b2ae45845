import { printDb, printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { matchedCrossings } from "../matched-crossings.ts";
import { screenRule } from "../rule.ts";

export const wrongPolarity = screenRule({
  code: "crossover/wrong-polarity",
  kind: "sound",
  severity: "error",
  title: "The polarity of neighbouring ways is the one that makes their sum flat.",
  why: "With one way turned over, two Linkwitz-Riley ways of fourth order cancel at the crossover: dialogue loses its middle.",
  source:
    "S. H. Linkwitz, JAES 24 (1976); computed from the sum of the ways with ideal drivers, not from a table",
  remedy: "Turn the polarity of one of the two ways over, then measure the sum.",
  limits: {
    minGainDb: { value: 3, unit: "dB", words: "how much flatter the sum must become" },
  },
  example: {
    breaks: [set("/outputs/center-hf/polarity", "inverted")],
    mends: [set("/outputs/center-hf/polarity", "normal")],
  },
  *check(context, { minGainDb }) {
    for (const { upper, crossing } of matchedCrossings(context)) {
      const gainDb = crossing.rippleDb - crossing.rippleInvertedDb;
      if (!(gainDb > minGainDb)) continue;
      yield {
        path: ["outputs", upper.index, "polarity"],
        words: `The sum at ${printHz(crossing.frequencyHz)} is ${printDb(crossing.sumDb)} as set, and ${printDb(crossing.sumInvertedDb)} with the ${upper.way.band} way turned over.`,
        numbers: {
          frequencyHz: crossing.frequencyHz,
          sumDb: finite(crossing.sumDb),
          sumInvertedDb: finite(crossing.sumInvertedDb),
        },
      };
    }
  },
});

/** A full cancellation is −∞ dB, which JSON cannot say. */
function finite(levelDb: number): number {
  return Math.max(levelDb, -200);
}
