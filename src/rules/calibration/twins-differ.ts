import { CHANNELS, type ChannelLabel } from "../../model/index.ts";
import { printNumber } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { TWIN_CHANNELS } from "../twins.ts";

export const twinsDiffer = screenRule({
  code: "calibration/twins-differ",
  kind: "sound",
  severity: "warning",
  title: "Left and right channels were left at the same level.",
  why: "Each may be within its tolerance, and the image still pulls to the louder side.",
  source: COMMON_PRACTICE,
  remedy: "Trim one of the two until both read alike.",
  limits: {
    maxDb: { value: 1, unit: "dB", words: "largest difference of the measured levels" },
  },
  example: {
    breaks: [set("/calibration/channels/L/levelDbC", 85.8), set("/calibration/channels/R/levelDbC", 84.2)],
    mends: [set("/calibration/channels/L/levelDbC", 85), set("/calibration/channels/R/levelDbC", 85)],
  },
  *check({ configuration, channels }, { maxDb }) {
    const measured = configuration.calibration?.channels ?? [];
    const indexOf = (label: ChannelLabel) =>
      measured.findIndex(({ channelId }) => channels.get(channelId)?.item.label === label);
    for (const [leftLabel, rightLabel] of TWIN_CHANNELS) {
      const [left, right] = [measured[indexOf(leftLabel)], measured[indexOf(rightLabel)]];
      if (left === undefined || right === undefined) continue;
      const apartDb = right.levelDbC - left.levelDbC;
      if (Math.abs(apartDb) <= maxDb + 1e-9) continue;
      yield {
        path: ["calibration", "channels", indexOf(rightLabel), "levelDbC"],
        words: `${CHANNELS[rightLabel].name} was left at ${printNumber(right.levelDbC, 1)} dBC, ${CHANNELS[leftLabel].name} at ${printNumber(left.levelDbC, 1)} dBC.`,
        numbers: { apartDb },
      };
    }
  },
});
