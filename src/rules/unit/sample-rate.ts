import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const sampleRate = screenRule({
  code: "unit/sample-rate",
  kind: "sound",
  severity: "error",
  title: "The unit runs at one of its sample rates.",
  why: "Every filter and every delay in samples depends on the sample rate.",
  source: "the unit's profile",
  remedy: "Set a sample rate that the unit has.",
  needsProfile: true,
  example: {
    // Delays stand on whole samples: without them nothing else depends on the rate.
    breaks: [
      set("/unit/sampleRateHz", 88200),
      ...["left-lf", "center-lf", "center-mf", "right-lf"].map((id) => set(`/outputs/${id}/delayMs`, 0)),
    ],
    mends: [set("/unit/sampleRateHz", 96000)],
  },
  *check({ configuration: { unit }, profile }) {
    const offered = profile!.sampleRatesHz;
    if (offered.includes(unit.sampleRateHz)) return;
    yield {
      path: ["unit", "sampleRateHz"],
      words: `The sample rate is ${unit.sampleRateHz} Hz; the unit runs at ${offered.join(", ")} Hz.`,
      numbers: { sampleRateHz: unit.sampleRateHz },
    };
  },
});
