import { CHANNELS } from "../../model/index.ts";
import { printDb, printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { peakOf } from "../response-peak.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { TWIN_CHANNELS } from "../twins.ts";

export const twinEqualizers = screenRule({
  code: "level/twin-equalizers",
  kind: "sound",
  severity: "advice",
  title: "The EQ of left and right channels is alike within a few dB.",
  why: "Rooms are nearly alike on both sides: a large difference is a loudspeaker fault covered by EQ, or a slip.",
  source: COMMON_PRACTICE,
  remedy: "Compare the measurements of both sides, and the drivers.",
  limits: {
    maxDb: { value: 8, unit: "dB", words: "largest difference of the two responses" },
  },
  example: {
    breaks: [
      set("/equalizations/eq-feature/channels/Rrs/parametric", [
        { id: "p1", kind: "peaking", frequencyHz: 3000, gainDb: -11, q: 2 },
      ]),
    ],
    mends: [set("/equalizations/eq-feature/channels/Rrs/parametric", [])],
  },
  *check(context, { maxDb }) {
    const { equalizations, axis } = context.responses();
    for (const [i, set] of context.configuration.equalizations.entries()) {
      const responses = equalizations.get(set.id);
      for (const [leftLabel, rightLabel] of TWIN_CHANNELS) {
        const [left, right] = [idOf(leftLabel), idOf(rightLabel)];
        const [a, b] = [responses?.get(left ?? ""), responses?.get(right ?? "")];
        if (a === undefined || b === undefined) continue;
        const apart = a.magnitudeDb.map((levelDb, k) => Math.abs(levelDb - b.magnitudeDb[k]!));
        const { levelDb, frequencyHz } = peakOf(apart, axis.frequenciesHz);
        if (levelDb <= maxDb) continue;
        yield {
          path: ["equalizations", i, "channels", set.channels.findIndex((item) => item.channelId === right)],
          words: `The EQ is ${printDb(levelDb)} from that of ${CHANNELS[leftLabel].name} at ${printHz(frequencyHz)}.`,
          numbers: { apartDb: levelDb, frequencyHz },
        };
      }
    }
    function idOf(wanted: string) {
      return context.configuration.channels.find(({ label }) => label === wanted)?.id;
    }
  },
});
