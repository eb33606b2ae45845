import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const highPassTooShallow = screenRule({
  code: "crossover/high-pass-too-shallow",
  kind: "protection",
  severity: "error",
  title: "A high-pass is as steep as the loudspeaker's data asks.",
  why: "Half the slope lets twice the level in dB through an octave below the corner.",
  source: "the loudspeaker's data (safeHighPassOrder)",
  remedy: "Set an order at least as high as the data names, for both halves of the crossover.",
  example: {
    breaks: [
      set("/outputs/center-lf/lowPass/order", 2),
      set("/outputs/center-mf/highPass/order", 2),
      set("/outputs/center-mf/polarity", "inverted"),
      set("/outputs/center-hf/polarity", "inverted"),
    ],
    mends: [
      set("/outputs/center-lf/lowPass/order", 4),
      set("/outputs/center-mf/highPass/order", 4),
      set("/outputs/center-mf/polarity", "normal"),
      set("/outputs/center-hf/polarity", "normal"),
    ],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      const { highPass } = output;
      const safeOrder = way.safeHighPassOrder;
      if (highPass === undefined || safeOrder === undefined || highPass.order >= safeOrder) continue;
      yield {
        path: ["outputs", index, "highPass", "order"],
        words: `The high-pass has ${6 * highPass.order} dB per octave; the loudspeaker's data asks for ${6 * safeOrder}.`,
        numbers: { order: highPass.order, safeOrder },
      };
    }
  },
});
