import { octavesBetween } from "../../base/units/index.ts";
import { printHz, printNumber } from "../../words/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const highPassBelowSafe = screenRule({
  code: "crossover/high-pass-below-safe",
  kind: "protection",
  severity: "error",
  title: "A high-pass is no lower than the loudspeaker's data calls safe.",
  why: "Below its range a driver's travel grows fourfold with every octave: the diaphragm breaks.",
  source: "the loudspeaker's data (safeHighPassHz); travel of a closed driver: 12 dB per octave",
  remedy: "Raise both halves of the crossover to the safe frequency or above.",
  example: {
    breaks: [
      set("/outputs/center-lf/lowPass/frequencyHz", 250),
      set("/outputs/center-mf/highPass/frequencyHz", 250),
    ],
    mends: [
      set("/outputs/center-lf/lowPass/frequencyHz", 300),
      set("/outputs/center-mf/highPass/frequencyHz", 300),
    ],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      const { highPass } = output;
      const safeHz = way.safeHighPassHz;
      if (highPass === undefined || safeHz === undefined || highPass.frequencyHz >= safeHz) continue;
      const octaves = octavesBetween(highPass.frequencyHz, safeHz);
      yield {
        path: ["outputs", index, "highPass", "frequencyHz"],
        words: `The high-pass lies at ${printHz(highPass.frequencyHz)}, ${printNumber(octaves, 2)} octaves below the safe ${printHz(safeHz)}.`,
        numbers: { frequencyHz: highPass.frequencyHz, safeHz, octaves },
      };
    }
  },
});
