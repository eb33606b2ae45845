import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const dateAhead = screenRule({
  code: "calibration/date-ahead",
  kind: "record",
  severity: "warning",
  title: "The date of the measurement is not in the future.",
  why: "A wrong clock or a slip makes the newest measurement look older than the one before.",
  source: COMMON_PRACTICE,
  remedy: "Correct the date.",
  example: {
    today: "2026-11-25",
    breaks: [set("/calibration/date", "2062-09-14")],
    mends: [set("/calibration/date", "2026-09-14")],
  },
  *check({ configuration: { calibration }, today }) {
    // A day of grace: the laptop may stand in another time zone.
    if (calibration === undefined || today === undefined) return;
    if (Date.parse(calibration.date) - Date.parse(today) <= 86_400_000) return;
    yield {
      path: ["calibration", "date"],
      words: `The measurement is dated ${calibration.date}; today is ${today}.`,
      numbers: { date: calibration.date, today },
    };
  },
});
