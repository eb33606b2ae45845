import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const noCalibration = screenRule({
  code: "calibration/no-calibration",
  kind: "record",
  severity: "advice",
  title: "The measurements that the settings rest on are kept with them.",
  why: "Without them nobody can say whether a setting is right, or what the room was like before.",
  source: COMMON_PRACTICE,
  remedy: "Measure, and write level and third octaves of every channel into the calibration.",
  example: {
    breaks: [remove("/calibration")],
    mends: [restore("/calibration")],
  },
  *check({ configuration }) {
    if (configuration.calibration !== undefined) return;
    yield { path: [], words: "There is no calibration." };
  },
});
