import { CHANNELS } from "../../model/index.ts";
import { printMs } from "../../words/index.ts";
import { arrivalsOf, firstArrivals } from "../arrivals.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { TWIN_CHANNELS } from "../twins.ts";

export const twinDelays = screenRule({
  code: "time/twin-delays",
  kind: "sound",
  severity: "warning",
  title: "Left and right surround channels arrive together.",
  why: "In a room that is alike on both sides a difference of delay is a change that was made on one side only.",
  source: COMMON_PRACTICE,
  remedy: "Find out which side is right; if the room is not alike, say so in the loudspeakers' distances.",
  limits: {
    maxMs: { value: 3, unit: "ms", words: "how far the arrivals may lie apart" },
  },
  example: {
    breaks: [set("/channels/Rss/delayMs", 46)],
    mends: [set("/channels/Rss/delayMs", 38)],
  },
  *check(context, { maxMs }) {
    const arrivals = firstArrivals(arrivalsOf(context), "surround");
    for (const [leftLabel, rightLabel] of TWIN_CHANNELS) {
      const left = arrivals.find(({ label }) => label === leftLabel);
      const right = arrivals.find(({ label }) => label === rightLabel);
      if (left === undefined || right === undefined) continue;
      const apartMs = right.arrivalMs - left.arrivalMs;
      if (Math.abs(apartMs) <= maxMs) continue;
      yield {
        path: ["channels", right.channelIndex, "delayMs"],
        words: `${CHANNELS[rightLabel].name} arrives ${printMs(Math.abs(apartMs), 1)} ${apartMs > 0 ? "after" : "before"} ${CHANNELS[leftLabel].name}.`,
        numbers: { apartMs },
      };
    }
  },
});
