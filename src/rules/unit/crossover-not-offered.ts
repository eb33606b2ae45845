import { crossoverObstacle } from "../../profile/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const crossoverNotOffered = screenRule({
  code: "unit/crossover-not-offered",
  kind: "protection",
  severity: "error",
  title: "Every high-pass and low-pass has a family and order that the unit offers.",
  why: "A crossover is never approximated: another slope changes the sum of the ways and what reaches the driver.",
  source: "the unit's profile",
  remedy: "Choose a family and order that the unit has, for both halves, and check the sum.",
  needsProfile: true,
  example: {
    breaks: [
      set("/outputs/sub-1-all/highPass", {
        family: "bessel",
        order: 3,
        frequencyHz: 24,
        normalization: "magnitude",
      }),
      set("/outputs/sub-2-all/highPass", {
        family: "bessel",
        order: 3,
        frequencyHz: 24,
        normalization: "magnitude",
      }),
    ],
    mends: [
      set("/outputs/sub-1-all/highPass", { family: "butterworth", order: 3, frequencyHz: 24 }),
      set("/outputs/sub-2-all/highPass", { family: "butterworth", order: 3, frequencyHz: 24 }),
    ],
  },
  *check({ configuration, profile }) {
    for (const [i, output] of configuration.outputs.entries()) {
      for (const side of ["highPass", "lowPass"] as const) {
        const crossover = output[side];
        const obstacle = crossover && crossoverObstacle(profile!.outputs[side], crossover);
        if (crossover === undefined || obstacle === undefined) continue;
        const { family, order, normalization } = crossover;
        const what = {
          family: `no ${family} filter`,
          order: `no ${family} filter of order ${order}`,
          normalization: `no ${family} filter with its corner by ${normalization}`,
        }[obstacle];
        yield {
          path: ["outputs", i, side],
          words: `The unit has ${what} here.`,
          numbers: { family, order },
        };
      }
    }
  },
});
