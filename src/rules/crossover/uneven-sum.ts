import type { WayCrossing } from "../../acoustics/index.ts";
import { printDb, printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { matchedCrossings } from "../matched-crossings.ts";
import { screenRule } from "../rule.ts";

export const unevenSum = screenRule({
  code: "crossover/uneven-sum",
  kind: "sound",
  severity: "advice",
  title: "The ways of a loudspeaker sum evenly at the crossover.",
  why: "Even-order Butterworth halves sum to +3 dB at the corner at best: someone has to take that out by EQ.",
  source:
    "Linkwitz and Riley (JAES 1976): even-order Butterworth +3.01 dB, Linkwitz-Riley 0 dB; computed with ideal drivers",
  remedy: "Use Linkwitz-Riley halves, or check by measurement that the EQ takes the bump out.",
  limits: {
    maxRippleDb: {
      value: 2,
      unit: "dB",
      words: "largest distance of the sum from even within an octave of the crossover",
    },
  },
  example: {
    breaks: [
      set("/outputs/center-lf/lowPass/family", "butterworth"),
      set("/outputs/center-mf/highPass/family", "butterworth"),
    ],
    mends: [
      set("/outputs/center-lf/lowPass/family", "linkwitz-riley"),
      set("/outputs/center-mf/highPass/family", "linkwitz-riley"),
    ],
  },
  *check(context, { maxRippleDb }) {
    for (const { lower, upper, crossing } of matchedCrossings(context)) {
      const unevenDb = unevenness(crossing);
      if (unevenDb <= maxRippleDb) continue;
      yield {
        path: ["outputs", upper.index, "highPass"],
        words: `The sum of ${lower.way.band} and ${upper.way.band} is uneven by ${printDb(unevenDb)} around ${printHz(crossing.frequencyHz)}, whatever the polarity.`,
        numbers: { unevenDb, frequencyHz: crossing.frequencyHz },
      };
    }
  },
});

/** By the better polarity: the ripple within an octave, or how far the sum at the crossover is from the ways' own level. */
function unevenness({ rippleDb, rippleInvertedDb, sumDb, sumInvertedDb }: WayCrossing): number {
  return rippleDb <= rippleInvertedDb
    ? Math.max(rippleDb, Math.abs(sumDb))
    : Math.max(rippleInvertedDb, Math.abs(sumInvertedDb));
}
