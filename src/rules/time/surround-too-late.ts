import { CHANNELS } from "../../model/index.ts";
import { printMs } from "../../words/index.ts";
import { arrivalsOf, firstArrivals, screenArrivalMs } from "../arrivals.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const surroundTooLate = screenRule({
  code: "time/surround-too-late",
  kind: "sound",
  severity: "advice",
  title: "Surround channels arrive soon enough after the screen not to be heard as an echo.",
  why: "Beyond some 40 ms a sound that is also in the screen channels is heard twice.",
  source: "echo threshold for speech of about 40 ms (H. Haas, 1951); the value: common practice, no source",
  remedy: "Take delay off the surround channel, or check the distances.",
  limits: {
    maxAfterMs: { value: 45, unit: "ms", words: "how long after the screen the surrounds may arrive" },
  },
  example: {
    breaks: [set("/channels/Lrs/delayMs", 140), set("/channels/Rrs/delayMs", 140)],
    mends: [set("/channels/Lrs/delayMs", 40), set("/channels/Rrs/delayMs", 40)],
  },
  *check(context, { maxAfterMs }) {
    const arrivals = arrivalsOf(context);
    const screenMs = screenArrivalMs(arrivals);
    if (screenMs === undefined) return;
    for (const { label, channelIndex, arrivalMs } of firstArrivals(arrivals, "surround")) {
      const afterMs = arrivalMs - screenMs;
      if (afterMs <= maxAfterMs) continue;
      yield {
        path: ["channels", channelIndex, "delayMs"],
        words: `${CHANNELS[label].name} arrives ${printMs(afterMs, 1)} after the screen at the reference seat.`,
        numbers: { afterMs, channel: label },
      };
    }
  },
});
