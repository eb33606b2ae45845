import { printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";
import { wayPairs } from "../way-pairs.ts";

export const halvesDiffer = screenRule({
  code: "crossover/halves-differ",
  kind: "sound",
  severity: "warning",
  title: "The two halves of a crossover are of one family, order and frequency.",
  why: "Linkwitz-Riley and Butterworth halves sum flat or evenly only with their own kind at their own corner.",
  source:
    'S. H. Linkwitz, "Active Crossover Networks for Noncoincident Drivers", JAES 24 (1976); that halves are set alike: common practice',
  remedy:
    "Set both halves alike, or write down the measurement that asked for the difference and switch this rule off here.",
  limits: {
    maxOctaves: { value: 0.02, unit: "octaves", words: "how far the corners may lie apart" },
  },
  example: {
    breaks: [set("/outputs/center-lf/lowPass/family", "butterworth")],
    mends: [set("/outputs/center-lf/lowPass/family", "linkwitz-riley")],
  },
  *check(context, { maxOctaves }) {
    for (const { lower, upper } of wayPairs(context)) {
      const { lowPass } = lower.item;
      const { highPass } = upper.item;
      if (lowPass === undefined || highPass === undefined) continue;
      const octaves = Math.log2(lowPass.frequencyHz / highPass.frequencyHz);
      // Half an octave and more is a gap or an overlap, told as such.
      if (Math.abs(octaves) > 0.5) continue;
      const differences = [
        lowPass.family === highPass.family ? "" : `families ${lowPass.family} and ${highPass.family}`,
        lowPass.order === highPass.order ? "" : `orders ${lowPass.order} and ${highPass.order}`,
        Math.abs(octaves) <= maxOctaves
          ? ""
          : `corners ${printHz(lowPass.frequencyHz)} and ${printHz(highPass.frequencyHz)}`,
      ].filter((part) => part !== "");
      if (differences.length === 0) continue;
      yield {
        path: ["outputs", upper.index, "highPass"],
        words: `The crossover between ${lower.way.band} and ${upper.way.band} has ${differences.join(", ")}.`,
        numbers: { octaves, lowPassHz: lowPass.frequencyHz, highPassHz: highPass.frequencyHz },
      };
    }
  },
});
