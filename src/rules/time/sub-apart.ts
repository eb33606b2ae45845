import { printMs } from "../../words/index.ts";
import { arrivalsOf, screenArrivalMs } from "../arrivals.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const subApart = screenRule({
  code: "time/sub-apart",
  kind: "sound",
  severity: "warning",
  title: "Subwoofers arrive with the screen.",
  why: "A quarter of a period at 50 Hz is 5 ms: a subwoofer that is later cancels the low end of the screen channels.",
  source: COMMON_PRACTICE,
  remedy: "Set the delay of LFE or of the subwoofer outputs, and check by measurement around 80 Hz.",
  limits: {
    maxMs: { value: 15, unit: "ms", words: "how far the arrivals may lie apart" },
  },
  example: {
    breaks: [set("/channels/LFE/delayMs", 30)],
    mends: [set("/channels/LFE/delayMs", 0)],
  },
  *check(context, { maxMs }) {
    const arrivals = arrivalsOf(context);
    const screenMs = screenArrivalMs(arrivals);
    if (screenMs === undefined) return;
    const subs = arrivals.filter(
      ({ label, fed }) => label === "LFE" && fed.loudspeaker.placement === "subwoofer",
    );
    for (const { fed, arrivalMs } of subs) {
      const lateMs = arrivalMs - screenMs;
      if (Math.abs(lateMs) <= maxMs) continue;
      yield {
        path: ["outputs", fed.index, "delayMs"],
        words: `The subwoofer arrives ${printMs(Math.abs(lateMs), 1)} ${lateMs > 0 ? "after" : "before"} the screen at the reference seat.`,
        numbers: { lateMs },
      };
    }
  },
});
