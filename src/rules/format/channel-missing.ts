import { CHANNELS, FORMAT_CHANNELS } from "../../model/index.ts";
import { remove, set } from "../edits.ts";
import { crossingsOf, labelsPresent, presetsOf, targetsOf } from "../program.ts";
import { sourceCarries } from "../program-source.ts";
import { screenRule } from "../rule.ts";

export const channelMissing = screenRule({
  code: "format/channel-missing",
  kind: "routing",
  severity: "error",
  title: "Every channel of a preset's format is routed to the channels that play it.",
  why: "A channel that is not routed is silent: the audience hears a film with a part missing.",
  source: "SMPTE ST 428-12:2013 (soundfield groups)",
  remedy: "Add the crossing from the source channel that carries it.",
  example: {
    breaks: [remove("/presets/feature-71ds/routing/server-11-to-Lrs")],
    mends: [
      set("/presets/feature-71ds/routing/server-11-to-Lrs", {
        id: "server-11-to-Lrs",
        sourceChannelId: "server-11",
        channelId: "Lrs",
        gainDb: 0,
      }),
    ],
  },
  *check(context) {
    const present = labelsPresent(context);
    for (const { item: preset, index } of presetsOf(context)) {
      const crossings = crossingsOf(context, preset);
      const source = context.sources.get(preset.sourceId)?.item;
      if (source === undefined || crossings.some(({ carried }) => carried === undefined)) continue;
      for (const label of FORMAT_CHANNELS[preset.format]) {
        const carriers = crossings.filter(
          ({ carried }) => carried === label || (preset.format === "mono" && carried === "mono"),
        );
        const isRouted = carriers.length > 0;
        // A label that the source does not carry, or that no loudspeaker could play, has rules of its own.
        if (isRouted || targetsOf(label, present).length === 0) continue;
        if (!sourceCarries(context, preset.sourceId, label, preset.format)) continue;
        yield {
          path: ["presets", index, "routing"],
          words: `${CHANNELS[label].name} (${label}) of the ${preset.format} program is routed nowhere: it is silent.`,
          numbers: { channel: label, format: preset.format },
        };
      }
    }
  },
});
