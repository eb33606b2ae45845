import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

const WAYS = { passive: 1, "active-2": 2, "active-3": 3, "active-4": 4 } as const;

export const driveAndWays = screenRule({
  code: "crossover/drive-and-ways",
  kind: "record",
  severity: "warning",
  title: "A loudspeaker has as many ways as its drive says.",
  why: "Either a way is missing from the file or the loudspeaker is another one.",
  source: COMMON_PRACTICE,
  remedy: "Correct the drive or the list of ways.",
  example: {
    breaks: [set("/loudspeakers/screen-center/drive", "active-4")],
    mends: [set("/loudspeakers/screen-center/drive", "active-3")],
  },
  *check({ configuration }) {
    for (const [index, { drive, ways }] of configuration.loudspeakers.entries()) {
      if (ways.length === WAYS[drive]) continue;
      yield {
        path: ["loudspeakers", index, "drive"],
        words: `The drive is ${drive}; there ${ways.length === 1 ? "is 1 way" : `are ${ways.length} ways`}.`,
        numbers: { drive, ways: ways.length },
      };
    }
  },
});
