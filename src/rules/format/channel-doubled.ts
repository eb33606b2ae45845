import { CHANNELS } from "../../model/index.ts";
import { remove, set } from "../edits.ts";
import { crossingsOf, isHeadset, presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const channelDoubled = screenRule({
  code: "format/channel-doubled",
  kind: "routing",
  severity: "error",
  title: "A source channel meets a program channel once.",
  why: "The same signal twice in one channel is 6 dB louder than meant.",
  source: "SMPTE ST 428-12:2013 (soundfield groups); two equal signals in phase: +6.02 dB",
  remedy: "Take one of the two crossings out.",
  example: {
    breaks: [
      set("/presets/feature-51/routing/twice", {
        id: "twice",
        sourceChannelId: "server-05",
        channelId: "Lss",
        gainDb: -3,
      }),
    ],
    mends: [remove("/presets/feature-51/routing/twice")],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      const seen = new Set<string>();
      for (const { route, index: at, carried, to } of crossingsOf(context, preset)) {
        // By what is carried, where the source says so: two positions with one label are one signal.
        const signal = carried === undefined || carried === "mono" ? route.sourceChannelId : carried;
        const key = `${signal} ${route.channelId}`;
        if (seen.has(key) && !isHeadset(to)) {
          yield {
            path: ["presets", index, "routing", at],
            words: `${CHANNELS[to].name} gets ${carried ?? route.sourceChannelId} twice: 6 dB too loud.`,
            numbers: { channel: to, tooLoudDb: 6.02 },
          };
        }
        seen.add(key);
      }
    }
  },
});
