import type { Configuration, DocumentPath } from "../../model/index.ts";
import { printHz } from "../../words/index.ts";
import { remove, set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const frequencyTooHigh = screenRule({
  code: "unit/frequency-too-high",
  kind: "sound",
  severity: "error",
  title: "Every filter lies below half the sample rate.",
  why: "A digital filter knows no frequency above half the sample rate.",
  source: "the sampling theorem; W3C Audio EQ Cookbook (0 < f < fs/2)",
  remedy: "Lower the frequency, take the filter out, or run the unit at a higher sample rate.",
  example: {
    breaks: [
      set("/outputs/sub-1-all/filters/n1", {
        id: "n1",
        kind: "notch",
        frequencyHz: 24000,
        q: 4,
        enabled: false,
      }),
    ],
    mends: [remove("/outputs/sub-1-all/filters/n1")],
  },
  *check({ configuration }) {
    const limitHz = configuration.unit.sampleRateHz / 2;
    for (const [path, frequencyHz] of filterFrequencies(configuration)) {
      if (frequencyHz < limitHz) continue;
      yield {
        path,
        words: `The filter lies at ${printHz(frequencyHz)}; half the sample rate is ${printHz(limitHz)}.`,
        numbers: { frequencyHz, limitHz },
      };
    }
  },
});

function* filterFrequencies(configuration: Configuration): Iterable<readonly [DocumentPath, number]> {
  for (const [i, { channels }] of configuration.equalizations.entries()) {
    for (const [j, { parametric = [] }] of channels.entries()) {
      for (const [k, { frequencyHz }] of parametric.entries()) {
        yield [["equalizations", i, "channels", j, "parametric", k, "frequencyHz"], frequencyHz];
      }
    }
  }
  for (const [i, { filters, highPass, lowPass }] of configuration.outputs.entries()) {
    for (const [k, { frequencyHz }] of filters.entries()) {
      yield [["outputs", i, "filters", k, "frequencyHz"], frequencyHz];
    }
    if (highPass) yield [["outputs", i, "highPass", "frequencyHz"], highPass.frequencyHz];
    if (lowPass) yield [["outputs", i, "lowPass", "frequencyHz"], lowPass.frequencyHz];
  }
}
