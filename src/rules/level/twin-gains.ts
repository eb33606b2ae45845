import { printDb } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { twinOutputs } from "../twins.ts";

export const twinGains = screenRule({
  code: "level/twin-gains",
  kind: "sound",
  severity: "warning",
  title: "Twins have nearly the same output gain.",
  why: "Alike loudspeakers at alike amplifiers need alike gains: a difference is a slip, or an amplifier knob that moved.",
  source: COMMON_PRACTICE,
  remedy: "Check the amplifier's gain and the wiring, then level both sides again.",
  limits: {
    maxDb: { value: 3, unit: "dB", words: "largest difference of gain" },
  },
  example: {
    breaks: [set("/outputs/right-hf/gainDb", -14)],
    mends: [set("/outputs/right-hf/gainDb", -10)],
  },
  *check(context, { maxDb }) {
    for (const { left, right } of twinOutputs(context)) {
      const apartDb = right.item.gainDb - left.item.gainDb;
      if (Math.abs(apartDb) <= maxDb) continue;
      yield {
        path: ["outputs", right.index, "gainDb"],
        words: `The gain is ${printDb(right.item.gainDb)}, ${printDb(left.item.gainDb)} at ${left.loudspeaker.label}.`,
        numbers: { apartDb, gainDb: right.item.gainDb, twinDb: left.item.gainDb },
      };
    }
  },
});
