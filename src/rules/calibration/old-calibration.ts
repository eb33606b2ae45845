import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

const DAY_MS = 86_400_000;

export const oldCalibration = screenRule({
  code: "calibration/old-calibration",
  kind: "record",
  severity: "advice",
  title: "The room was measured within the last two years.",
  why: "Screens get dirty, drivers age, seats are changed: what was right once is worth a look.",
  source: COMMON_PRACTICE,
  remedy: "Plan a measurement.",
  limits: {
    maxDays: { value: 730, unit: "days", words: "greatest age of a measurement" },
  },
  example: {
    today: "2026-11-25",
    breaks: [set("/calibration/date", "2023-05-02")],
    mends: [set("/calibration/date", "2026-11-20")],
  },
  *check({ configuration: { calibration }, today }, { maxDays }) {
    if (calibration === undefined || today === undefined) return;
    const days = Math.round((Date.parse(today) - Date.parse(calibration.date)) / DAY_MS);
    if (days <= maxDays) return;
    yield {
      path: ["calibration", "date"],
      words: `The measurement of ${calibration.date} is ${days} days old.`,
      numbers: { date: calibration.date, days },
    };
  },
});
