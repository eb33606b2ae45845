import { set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const wrongText = shapeRule({
  code: "shape/wrong-text",
  fault: "wrong-text",
  title: "Ids, dates, addresses and versions are written as they must be.",
  why: "Other programs look texts like these up or compute with them.",
  remedy: "Write it as the schema shows.",
  example: {
    breaks: [set("/calibration/date", "14.9.2026")],
    mends: [set("/calibration/date", "2026-09-14")],
  },
});
