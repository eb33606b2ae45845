import { CHANNELS } from "../../model/index.ts";
import { printMs } from "../../words/index.ts";
import { arrivalsOf, firstArrivals, screenArrivalMs } from "../arrivals.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const surroundBeforeScreen = screenRule({
  code: "time/surround-before-screen",
  kind: "sound",
  severity: "warning",
  title: "Surround channels arrive at the reference seat after the screen.",
  why: "The ear places a sound where it comes from first: dialogue leaking into the surrounds jumps to the wall.",
  source: "precedence effect (H. Haas, 1951); the margin: common practice, no source",
  remedy: "Add delay to the surround channel until it arrives some 10 ms after the screen.",
  limits: {
    minAfterMs: { value: 0, unit: "ms", words: "how long after the screen the surrounds arrive at least" },
  },
  example: {
    breaks: [set("/channels/Lrs/delayMs", 20), set("/channels/Rrs/delayMs", 20)],
    mends: [set("/channels/Lrs/delayMs", 40), set("/channels/Rrs/delayMs", 40)],
  },
  *check(context, { minAfterMs }) {
    const arrivals = arrivalsOf(context);
    const screenMs = screenArrivalMs(arrivals);
    if (screenMs === undefined) return;
    for (const { label, channelIndex, arrivalMs } of firstArrivals(arrivals, "surround")) {
      const afterMs = arrivalMs - screenMs;
      if (afterMs >= minAfterMs) continue;
      yield {
        path: ["channels", channelIndex, "delayMs"],
        words: `${CHANNELS[label].name} arrives ${printMs(-afterMs, 1)} before the screen at the reference seat.`,
        numbers: { afterMs, channel: label },
      };
    }
  },
});
