import { restore, set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const fewPositions = screenRule({
  code: "calibration/few-positions",
  kind: "record",
  severity: "advice",
  title: "The measurement averages over enough seats.",
  why: "At one seat the room's own dips look like the loudspeaker's: EQ against them makes every other seat worse.",
  source: COMMON_PRACTICE,
  remedy: "Measure at four positions or more, not in one line.",
  limits: {
    minPositions: { value: 4, unit: "", words: "fewest positions of the microphone" },
  },
  example: {
    breaks: [set("/calibration/microphonePositions", [{ id: "m1", xM: 0, yM: 14, zM: 1.2 }])],
    mends: [restore("/calibration/microphonePositions")],
  },
  *check({ configuration: { calibration } }, { minPositions }) {
    const count = calibration?.microphonePositions.length;
    if (count === undefined || count >= minPositions) return;
    yield {
      path: ["calibration", "microphonePositions"],
      words: `The microphone stood at ${count === 1 ? "one position" : `${count} positions`}.`,
      numbers: { count, minPositions },
    };
  },
});
