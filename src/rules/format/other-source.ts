import { remove, set } from "../edits.ts";
import { presetsOf } from "../program.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const otherSource = screenRule({
  code: "format/other-source",
  kind: "routing",
  severity: "error",
  title: "A preset routes channels of its own source.",
  why: "A preset selects one source: crossings from another are silent, or play what nobody called for.",
  source: COMMON_PRACTICE,
  remedy: "Route a channel of the preset's source, or change the preset's source.",
  example: {
    breaks: [
      set("/presets/announcement/routing/extra", {
        id: "extra",
        sourceChannelId: "music-l",
        channelId: "L",
        gainDb: 0,
      }),
    ],
    mends: [remove("/presets/announcement/routing/extra")],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      if (!context.sources.has(preset.sourceId)) continue;
      for (const [at, { sourceChannelId }] of preset.routing.entries()) {
        const from = context.sourceChannels.get(sourceChannelId);
        if (from === undefined || from.source.id === preset.sourceId) continue;
        yield {
          path: ["presets", index, "routing", at, "sourceChannelId"],
          words: `The crossing comes from ${from.source.label}; the preset selects ${context.sources.get(preset.sourceId)!.item.label}.`,
          numbers: { sourceChannelId, presetSourceId: preset.sourceId },
        };
      }
    }
  },
});
