import { CHANNELS } from "../../model/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const channelMuted = screenRule({
  code: "format/channel-muted",
  kind: "routing",
  severity: "warning",
  title: "No program channel is left muted.",
  why: "A mute from a test that nobody took back is silent in every preset.",
  source: COMMON_PRACTICE,
  remedy: "Unmute the channel.",
  example: {
    breaks: [set("/channels/LFE/mute", true)],
    mends: [set("/channels/LFE/mute", false)],
  },
  *check({ configuration }) {
    for (const [index, { mute, label }] of configuration.channels.entries()) {
      if (!mute) continue;
      yield {
        path: ["channels", index, "mute"],
        words: `${CHANNELS[label].name} is muted in every preset.`,
        numbers: { channel: label },
      };
    }
  },
});
