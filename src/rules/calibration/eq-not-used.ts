import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const eqNotUsed = screenRule({
  code: "calibration/eq-not-used",
  kind: "record",
  severity: "warning",
  title: "The measurement was made with an EQ set that shows use.",
  why: "A curve measured with another EQ set says nothing about what the audience hears.",
  source: COMMON_PRACTICE,
  remedy: "Measure with the EQ set of the feature presets, or correct the calibration's EQ set.",
  example: {
    breaks: [set("/calibration/equalizationId", "eq-old")],
    mends: [set("/calibration/equalizationId", "eq-feature")],
  },
  *check({ configuration }) {
    const { calibration, presets, equalizations } = configuration;
    if (calibration === undefined || presets.length === 0) return;
    const id = calibration.equalizationId;
    if (presets.some(({ equalizationId }) => equalizationId === id)) return;
    const exists = equalizations.some((item) => item.id === id);
    yield {
      path: ["calibration", "equalizationId"],
      words: exists
        ? `The calibration was made with EQ set '${id}', which no preset uses.`
        : `The calibration was made with EQ set '${id}', which does not exist.`,
      numbers: { equalizationId: id },
    };
  },
});
