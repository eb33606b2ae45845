import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

const LABELS = { "hearing-impaired": "HI", narration: "VIN" } as const;

export const headsetFeedMix = screenRule({
  code: "operation/headset-feed-mix",
  kind: "routing",
  severity: "error",
  title: "Each headset feed carries its own channel.",
  why: "Narration on the hearing-impaired transmitter, or nothing at all, is a promise broken to the people in those seats.",
  source:
    "ISDCF Document 4, 2017-06-29 (HI and VIN); that each feed carries its own: common practice, no source",
  remedy: "Mix HI into the hearing-impaired feed, and VIN into the narration feed.",
  example: {
    breaks: [set("/outputs/narration/mix", [{ channelId: "HI", gainDb: 0 }])],
    mends: [set("/outputs/narration/mix", [{ channelId: "VIN", gainDb: 0 }])],
  },
  *check({ configuration, channels, labelsOf }) {
    const present = new Set([...channels.values()].map(({ item }) => item.label));
    for (const [index, output] of configuration.outputs.entries()) {
      const { kind } = output.feeds;
      if (kind !== "hearing-impaired" && kind !== "narration") continue;
      const label = LABELS[kind];
      if (!present.has(label) || labelsOf(output).includes(label)) continue;
      yield {
        path: ["outputs", index, "mix"],
        words: `The feed does not carry ${label}.`,
        numbers: { channel: label, mixed: labelsOf(output).join(" ") },
      };
    }
  },
});
