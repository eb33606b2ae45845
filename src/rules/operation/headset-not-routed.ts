import { remove, set } from "../edits.ts";
import { crossingsOf, presetsOf } from "../program.ts";
import { sourceCarries } from "../program-source.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

const FEEDS = { "hearing-impaired": "HI", narration: "VIN" } as const;

export const headsetNotRouted = screenRule({
  code: "operation/headset-not-routed",
  kind: "routing",
  severity: "warning",
  title: "Feature presets route HI and narration where the room has feeds for them.",
  why: "The transmitter is there and silent: people with headsets hear nothing.",
  source: COMMON_PRACTICE,
  remedy: "Add the crossings from the source channels that carry HI and VIN.",
  example: {
    breaks: [remove("/presets/feature-71ds/routing/server-08-to-VIN")],
    mends: [
      set("/presets/feature-71ds/routing/server-08-to-VIN", {
        id: "server-08-to-VIN",
        sourceChannelId: "server-08",
        channelId: "VIN",
        gainDb: 0,
      }),
    ],
  },
  *check(context) {
    const fed = new Set(context.configuration.outputs.map(({ feeds }) => feeds.kind));
    for (const { item: preset, index } of presetsOf(context)) {
      // Only programs with a picture have headset channels, and mono ones are announcements.
      if (preset.format === "mono" || preset.format === "stereo") continue;
      const routed = crossingsOf(context, preset).map(({ to }) => to);
      for (const kind of ["hearing-impaired", "narration"] as const) {
        const label = FEEDS[kind];
        if (!fed.has(kind) || routed.includes(label)) continue;
        if (!sourceCarries(context, preset.sourceId, label, preset.format)) continue;
        yield {
          path: ["presets", index, "routing"],
          words: `${label} of the program is routed nowhere, although the room has a feed for it.`,
          numbers: { channel: label },
        };
      }
    }
  },
});
