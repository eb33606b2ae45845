import { printDb, printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { peakOf } from "../response-peak.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const eqBoost = screenRule({
  code: "level/eq-boost",
  kind: "sound",
  severity: "warning",
  title: "A channel's EQ lifts nothing by more than a few dB.",
  why: "A dip that comes from the room is not filled by a boost: it eats headroom and heats the driver.",
  source: COMMON_PRACTICE,
  remedy: "Take the boost back, and look for the cause (placement, polarity, crossover).",
  limits: {
    maxBoostDb: { value: 10, unit: "dB", words: "largest lift by all filters of a channel together" },
  },
  example: {
    breaks: [
      set("/equalizations/eq-flat/channels/C", {
        channelId: "C",
        parametric: [{ id: "p1", kind: "peaking", frequencyHz: 250, gainDb: 12, q: 1 }],
      }),
    ],
    mends: [set("/equalizations/eq-flat/channels/C/parametric/p1/gainDb", 4)],
  },
  *check(context, { maxBoostDb }) {
    const { equalizations, axis } = context.responses();
    for (const [i, set] of context.configuration.equalizations.entries()) {
      for (const [j, { channelId }] of set.channels.entries()) {
        const response = equalizations.get(set.id)?.get(channelId);
        if (response === undefined) continue;
        const { levelDb, frequencyHz } = peakOf(response.magnitudeDb, axis.frequenciesHz);
        if (levelDb <= maxBoostDb) continue;
        yield {
          path: ["equalizations", i, "channels", j],
          words: `The EQ lifts ${printHz(frequencyHz)} by ${printDb(levelDb)}.`,
          numbers: { levelDb, frequencyHz },
        };
      }
    }
  },
});
