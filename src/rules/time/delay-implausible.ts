import { metresFromMs } from "../../base/units/index.ts";
import { printMetres, printMs } from "../../words/index.ts";
import { remove, set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const delayImplausible = screenRule({
  code: "time/delay-implausible",
  kind: "sound",
  severity: "warning",
  title: "No channel is delayed by more than twice the length of the room, and some.",
  why: "Alignment makes up for distances inside the room: more is a slip of a digit, or samples taken for milliseconds.",
  source: COMMON_PRACTICE,
  remedy: "Check the unit of the number and the distances.",
  limits: {
    spareMs: { value: 25, unit: "ms", words: "added to the time that sound takes through the room and back" },
  },
  example: {
    // Where the distances are known, the arrival is told in place of the delay.
    breaks: [
      remove("/loudspeakers/surround-left-side/distanceM"),
      remove("/loudspeakers/surround-right-side/distanceM"),
      set("/outputs/left-side/delayMs", 200),
      set("/outputs/right-side/delayMs", 200),
    ],
    mends: [set("/outputs/left-side/delayMs", 0), set("/outputs/right-side/delayMs", 0)],
  },
  *check({ configuration }, { spareMs }) {
    const { geometry, temperatureC } = configuration.screen;
    if (geometry === undefined) return;
    const maxMs = (2 * geometry.lengthM * 1000) / metresFromMs(1000, temperatureC) + spareMs;
    const lists = { channels: configuration.channels, outputs: configuration.outputs };
    for (const [list, items] of Object.entries(lists)) {
      for (const [index, { delayMs }] of items.entries()) {
        if (delayMs <= maxMs) continue;
        yield {
          path: [list, index, "delayMs"],
          words: `The delay of ${printMs(delayMs)} is ${printMetres(metresFromMs(delayMs, temperatureC), 0)}; the room is ${printMetres(geometry.lengthM, 0)} long.`,
          numbers: { delayMs, lengthM: geometry.lengthM },
        };
      }
    }
  },
});
