import { CHANNELS } from "../../model/index.ts";
import { set } from "../edits.ts";
import { crossingsOf, isHeadset, presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const channelSilent = screenRule({
  code: "format/channel-silent",
  kind: "routing",
  severity: "error",
  title: "Every program channel that a preset uses reaches a loudspeaker.",
  why: "A channel without an output, or with all of them muted, is silent however well it is routed.",
  source: "SMPTE ST 428-12:2013 (soundfield groups)",
  remedy: "Mix the channel into the outputs of its loudspeakers, and unmute them.",
  example: {
    breaks: [set("/outputs/left-rear/mix", [])],
    mends: [set("/outputs/left-rear/mix", [{ channelId: "Lrs", gainDb: 0 }])],
  },
  *check(context) {
    const playing = new Set(
      context.fedWays.filter(({ item }) => !item.mute).flatMap(({ item }) => context.labelsOf(item)),
    );
    for (const [index, channel] of context.configuration.channels.entries()) {
      if (isHeadset(channel.label) || playing.has(channel.label) || channel.mute) continue;
      const users = presetsOf(context).filter(({ item }) =>
        crossingsOf(context, item).some(({ to }) => to === channel.label),
      );
      if (users.length === 0) continue;
      yield {
        path: ["channels", index],
        words: `${CHANNELS[channel.label].name} plays from no loudspeaker, and ${users.length} presets use it.`,
        numbers: { channel: channel.label, presets: users.length },
      };
    }
  },
});
