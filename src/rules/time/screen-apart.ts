import { CHANNELS } from "../../model/index.ts";
import { printMs } from "../../words/index.ts";
import { arrivalsOf, firstArrivals } from "../arrivals.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const screenApart = screenRule({
  code: "time/screen-apart",
  kind: "sound",
  severity: "warning",
  title: "Screen channels arrive together.",
  why: "A pan across the screen jumps when one channel is late; sound in two channels combs.",
  source: COMMON_PRACTICE,
  remedy: "Set the channel delays so that the screen channels arrive together at the reference seat.",
  limits: {
    maxMs: { value: 3, unit: "ms", words: "how far the arrivals may lie apart" },
  },
  example: {
    breaks: [set("/channels/C/delayMs", 6)],
    mends: [set("/channels/C/delayMs", 1)],
  },
  *check(context, { maxMs }) {
    const [first, ...others] = [...firstArrivals(arrivalsOf(context), "screen")].sort(
      (a, b) => a.arrivalMs - b.arrivalMs,
    );
    const late = others.filter(({ arrivalMs }) => arrivalMs - first!.arrivalMs > maxMs);
    // Where all others are late, the one that comes before them is the odd one out.
    if (late.length > 1 && late.length === others.length) {
      const [next] = late;
      const earlyMs = next!.arrivalMs - first!.arrivalMs;
      yield {
        path: ["channels", first!.channelIndex, "delayMs"],
        words: `${CHANNELS[first!.label].name} arrives ${printMs(earlyMs, 1)} before the other screen channels at the reference seat.`,
        numbers: { earlyMs, channel: first!.label, nextChannel: next!.label },
      };
      return;
    }
    for (const { label, channelIndex, arrivalMs } of late) {
      const lateMs = arrivalMs - first!.arrivalMs;
      yield {
        path: ["channels", channelIndex, "delayMs"],
        words: `${CHANNELS[label].name} arrives ${printMs(lateMs, 1)} after ${CHANNELS[first!.label].name} at the reference seat.`,
        numbers: { lateMs, channel: label, firstChannel: first!.label },
      };
    }
  },
});
