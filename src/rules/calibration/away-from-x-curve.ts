import { xCurveDeviations } from "../../acoustics/index.ts";
import { CHANNELS } from "../../model/index.ts";
import { printDbChange, printHz } from "../../words/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const awayFromXCurve = screenRule({
  code: "calibration/away-from-x-curve",
  kind: "sound",
  severity: "advice",
  title: "Screen and surround channels follow the X-curve.",
  why: "Films are mixed in rooms that follow it.",
  source:
    "SMPTE ST 202:2010 / ISO 2969:2015 through public transcriptions (63 Hz to 16 kHz); its tolerance was not read, so this is advice",
  remedy: "Look at the measurement and at the loudspeaker before reaching for the EQ.",
  limits: {
    maxDb: {
      value: 4,
      unit: "dB",
      words: "largest distance of a third octave from the curve, 63 Hz to 12.5 kHz",
    },
  },
  example: {
    breaks: [set("/calibration/channels/L/thirdOctavesDb/20", -12)],
    mends: [set("/calibration/channels/L/thirdOctavesDb/20", -2.9)],
  },
  *check({ configuration, channels }, { maxDb }) {
    for (const [index, { channelId, thirdOctavesDb }] of (
      configuration.calibration?.channels ?? []
    ).entries()) {
      const label = channels.get(channelId)?.item.label;
      const role = label && CHANNELS[label].role;
      if (thirdOctavesDb === undefined || (role !== "screen" && role !== "surround")) continue;
      const bands = xCurveDeviations(thirdOctavesDb)
        .map((deviation, k) => ({ ...deviation, k }))
        .filter(({ judged }) => judged);
      const worst = bands.reduce((a, b) => (Math.abs(b.deviationDb) > Math.abs(a.deviationDb) ? b : a));
      const count = bands.filter(({ deviationDb }) => Math.abs(deviationDb) > maxDb).length;
      if (count === 0) continue;
      yield {
        path: ["calibration", "channels", index, "thirdOctavesDb", worst.k],
        words: `${count === 1 ? "One third octave lies" : `${count} third octaves lie`} away from the X-curve, the most at ${printHz(worst.frequencyHz)}: ${printDbChange(worst.deviationDb)}.`,
        numbers: { offDb: worst.deviationDb, frequencyHz: worst.frequencyHz, bands: count },
      };
    }
  },
});
