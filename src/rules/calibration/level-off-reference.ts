import { CHANNELS, type ChannelLabel } from "../../model/index.ts";
import { printDbChange, printNumber } from "../../words/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

/** Surrounds come in pairs at 82 dBC each; one alone adds up to 85 dBC (from memory). */
const REFERENCE_DBC: Readonly<Record<string, number>> = { screen: 85, surround: 82 };

export const levelOffReference = screenRule({
  code: "calibration/level-off-reference",
  kind: "sound",
  severity: "warning",
  title: "Channels were left at their reference level.",
  why: "Films are mixed at these levels: a channel off by 2 dB changes the balance of every show.",
  source:
    "SMPTE RP 200:2012 as quoted in public texts: 85 dBC each screen channel, 82 dBC each of two surround channels, pink noise at −20 dBFS; 7.1 surrounds at 82 dBC from memory",
  remedy: "Set the channel's level by the measured difference, and measure again.",
  limits: {
    maxDb: { value: 1, unit: "dB", words: "how far a level may be from reference" },
  },
  example: {
    breaks: [set("/calibration/channels/C/levelDbC", 88)],
    mends: [set("/calibration/channels/C/levelDbC", 85)],
  },
  *check({ configuration, channels }, { maxDb }) {
    for (const [index, { channelId, levelDbC }] of (configuration.calibration?.channels ?? []).entries()) {
      const label = channels.get(channelId)?.item.label;
      const referenceDbC = label === undefined ? undefined : referenceOf(label);
      if (label === undefined || referenceDbC === undefined) continue;
      const offDb = levelDbC - referenceDbC;
      if (Math.abs(offDb) <= maxDb + 1e-9) continue;
      yield {
        path: ["calibration", "channels", index, "levelDbC"],
        words: `${CHANNELS[label].name} was left at ${printNumber(levelDbC, 1)} dBC, ${printDbChange(offDb)} from ${referenceDbC} dBC.`,
        numbers: { levelDbC, referenceDbC, offDb },
      };
    }
  },
});

/** No level is known for the rear channel of 6.1. */
function referenceOf(label: ChannelLabel): number | undefined {
  return label === "Cs" ? undefined : REFERENCE_DBC[CHANNELS[label].role];
}
