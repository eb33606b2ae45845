import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const noSubsonicFilter = screenRule({
  code: "crossover/no-subsonic-filter",
  kind: "protection",
  severity: "warning",
  title: "Subwoofers and low ways have a high-pass below their range.",
  why: "Below the tuning of a vented cabinet the cone is free: a door slam in the sound track tears it.",
  source: COMMON_PRACTICE,
  remedy: "Set a high-pass at the cabinet's tuning frequency, as its data says.",
  example: {
    breaks: [remove("/outputs/center-lf/highPass")],
    mends: [restore("/outputs/center-lf/highPass")],
  },
  *check({ fedWays }) {
    for (const { item: output, index, way } of fedWays) {
      if ((way.band !== "sub" && way.band !== "lf") || output.highPass !== undefined) continue;
      yield {
        path: ["outputs", index],
        words: `The ${way.band} way has no high-pass below its range.`,
        numbers: { safeHighPassHz: way.safeHighPassHz ?? null },
        // A subwoofer gets the most level at the lowest frequencies; of a low way some do without on purpose.
        severity: way.band === "sub" ? "warning" : "advice",
      };
    }
  },
});
