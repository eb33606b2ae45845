import { printDbChange } from "../../words/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const lfeGain = screenRule({
  code: "calibration/lfe-gain",
  kind: "sound",
  severity: "warning",
  title: "LFE stands 10 dB above a screen channel in its band.",
  why: "LFE is recorded 10 dB low: without the gain the effects are thin, with twice the gain the subwoofers bottom.",
  source: "SMPTE RP 200:2012 as quoted in a public text; ITU-R BS.775-3 Annex 7: +10 dB in band",
  remedy: "Set the level of LFE on a third-octave analyzer against a screen channel, band by band.",
  limits: {
    maxDb: { value: 2, unit: "dB", words: "how far the gain may be from +10 dB" },
  },
  example: {
    breaks: [set("/calibration/channels/LFE/inBandGainDb", 0.2)],
    mends: [set("/calibration/channels/LFE/inBandGainDb", 10)],
  },
  *check({ configuration, channels }, { maxDb }) {
    for (const [index, { channelId, inBandGainDb }] of (
      configuration.calibration?.channels ?? []
    ).entries()) {
      if (channels.get(channelId)?.item.label !== "LFE" || inBandGainDb === undefined) continue;
      if (Math.abs(inBandGainDb - 10) <= maxDb + 1e-9) continue;
      yield {
        path: ["calibration", "channels", index, "inBandGainDb"],
        words: `LFE stands ${printDbChange(inBandGainDb)} from a screen channel in its band; +10 dB is right.`,
        numbers: { inBandGainDb },
      };
    }
  },
});
