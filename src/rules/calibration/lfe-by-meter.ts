import { printNumber } from "../../words/index.ts";
import { remove, restore, set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const lfeByMeter = screenRule({
  code: "calibration/lfe-by-meter",
  kind: "sound",
  severity: "warning",
  title: "LFE was set by bands, not by a sound level meter.",
  why: "A C-weighted meter reads only 3.6 dB more when LFE is right: set to read 10 dB more, LFE is 6 dB too loud.",
  source:
    "ideal pink noise of 20 Hz to 120 Hz against 20 Hz to 20 kHz, C-weighted (IEC 61672-1): +3.6 dB; SMPTE RP 200: +10 dB in band",
  remedy:
    "Measure LFE on a third-octave analyzer against a screen channel, and write the gain in its band down.",
  limits: {
    maxAboveDb: {
      value: 7,
      unit: "dB",
      words: "by how much the meter may read more for LFE than for the centre",
    },
  },
  example: {
    breaks: [remove("/calibration/channels/LFE/inBandGainDb"), set("/calibration/channels/LFE/levelDbC", 95)],
    mends: [
      set("/calibration/channels/LFE/levelDbC", 88.8),
      restore("/calibration/channels/LFE/inBandGainDb"),
    ],
  },
  *check({ configuration, channels }, { maxAboveDb }) {
    const measured = configuration.calibration?.channels ?? [];
    const levelOf = (label: string) =>
      measured.find(({ channelId }) => channels.get(channelId)?.item.label === label)?.levelDbC;
    const index = measured.findIndex(({ channelId }) => channels.get(channelId)?.item.label === "LFE");
    const [lfe, center] = [measured[index], levelOf("C") ?? levelOf("L")];
    if (lfe === undefined || center === undefined) return;
    const aboveDb = lfe.levelDbC - center;
    // A gain measured in band is the better witness.
    if (lfe.inBandGainDb !== undefined || aboveDb <= maxAboveDb) return;
    yield {
      path: ["calibration", "channels", index, "levelDbC"],
      words: `The meter read ${printNumber(aboveDb, 1)} dB more for LFE than for the screen, and no gain in its band is given.`,
      numbers: { levelDbC: lfe.levelDbC, aboveDb },
    };
  },
});
