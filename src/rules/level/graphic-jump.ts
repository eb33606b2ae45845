import { printDb, printSigned } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const graphicJump = screenRule({
  code: "level/graphic-jump",
  kind: "sound",
  severity: "advice",
  title: "Neighbouring bands of a graphic equalizer stand close to each other.",
  why: "Bands that fight each other ring, and are often a slip: the wrong band, the wrong sign.",
  source: COMMON_PRACTICE,
  remedy: "Look at the measurement: a narrow peak wants a parametric filter.",
  limits: {
    maxDb: { value: 9, unit: "dB", words: "largest step from one band to the next" },
  },
  example: {
    breaks: [set("/equalizations/eq-feature/channels/C/graphic/gainsDb/12", -10)],
    mends: [set("/equalizations/eq-feature/channels/C/graphic/gainsDb/12", 0)],
  },
  *check({ configuration }, { maxDb }) {
    for (const [i, { channels }] of configuration.equalizations.entries()) {
      for (const [j, { graphic }] of channels.entries()) {
        if (graphic === undefined || graphic.enabled === false) continue;
        const at = largestStep(graphic.gainsDb);
        const [from = 0, to = 0] = graphic.gainsDb.slice(at, at + 2);
        if (Math.abs(to - from) <= maxDb) continue;
        yield {
          path: ["equalizations", i, "channels", j, "graphic", "gainsDb", at + 1],
          words: `Band ${at + 2} stands at ${printSigned(to, 1)} dB, ${printDb(Math.abs(to - from))} from band ${at + 1}.`,
          numbers: { stepDb: to - from, band: at + 2 },
        };
      }
    }
  },
});

function largestStep(gainsDb: readonly number[]): number {
  const steps = gainsDb.slice(1).map((gainDb, k) => Math.abs(gainDb - gainsDb[k]!));
  return steps.indexOf(Math.max(...steps));
}
