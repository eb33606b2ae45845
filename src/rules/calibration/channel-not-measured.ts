import { CHANNELS } from "../../model/index.ts";
import { remove, restore } from "../edits.ts";
import { isHeadset } from "../program.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const channelNotMeasured = screenRule({
  code: "calibration/channel-not-measured",
  kind: "record",
  severity: "advice",
  title: "Every channel of the auditorium was measured.",
  why: "A channel that was left out is often the one that was hard to reach.",
  source: COMMON_PRACTICE,
  remedy: "Measure the channel, and add it to the calibration.",
  example: {
    breaks: [remove("/calibration/channels/Rrs")],
    mends: [restore("/calibration/channels/Rrs")],
  },
  *check({ configuration }) {
    const measured = new Set(configuration.calibration?.channels.map(({ channelId }) => channelId));
    if (configuration.calibration === undefined) return;
    for (const { id, label } of configuration.channels) {
      if (measured.has(id) || isHeadset(label)) continue;
      yield {
        path: ["calibration", "channels"],
        words: `${CHANNELS[label].name} was not measured.`,
        numbers: { channel: label },
      };
    }
  },
});
