import { metresFromMs } from "../../base/units/index.ts";
import { printMetres, printMs } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { wayPairs } from "../way-pairs.ts";

export const waysApart = screenRule({
  code: "time/ways-apart",
  kind: "sound",
  severity: "warning",
  title: "The ways of one loudspeaker are delayed by no more than its depth.",
  why: "Delays between ways make up for how far drivers stand behind each other: more than that is a slip, and turns the phase at the crossover.",
  source: COMMON_PRACTICE,
  remedy: "Measure the ways one by one, and set the delay from the difference.",
  limits: {
    maxMs: { value: 5, unit: "ms", words: "largest difference of delay between neighbouring ways" },
  },
  example: {
    breaks: [set("/outputs/center-mf/delayMs", 10)],
    mends: [set("/outputs/center-mf/delayMs", 1)],
  },
  *check(context, { maxMs }) {
    const { temperatureC } = context.configuration.screen;
    for (const { lower, upper } of wayPairs(context)) {
      const apartMs = Math.abs(lower.item.delayMs - upper.item.delayMs);
      if (apartMs <= maxMs) continue;
      const apartM = metresFromMs(apartMs, temperatureC);
      yield {
        path: ["outputs", upper.index, "delayMs"],
        words: `The ${lower.way.band} and ${upper.way.band} ways are delayed ${printMs(apartMs)} (${printMetres(apartM)}) apart.`,
        numbers: { apartMs, apartM },
      };
    }
  },
});
