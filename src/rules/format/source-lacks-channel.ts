import { CHANNELS, FORMAT_CHANNELS } from "../../model/index.ts";
import { remove, set } from "../edits.ts";
import { presetsOf } from "../program.ts";
import { sourceCarries } from "../program-source.ts";
import { screenRule } from "../rule.ts";

export const sourceLacksChannel = screenRule({
  code: "format/source-lacks-channel",
  kind: "routing",
  severity: "error",
  title: "A preset's source carries every channel of the preset's format.",
  why: "What does not come in cannot be played: a six-channel source plays no 7.1DS.",
  source: "SMPTE ST 428-12:2013 (soundfield groups); ISDCF Document 4, 2017-06-29 (positions)",
  remedy: "Choose another format or source, or label the source's channels by what they carry.",
  example: {
    breaks: [remove("/presets/music/routing/music-r-to-R"), remove("/sources/non-sync/channels/music-r")],
    mends: [
      set("/sources/non-sync/channels/music-r", {
        id: "music-r",
        position: 2,
        connectorId: "line-in-2",
        carries: "R",
        gainDb: 0,
      }),
      set("/presets/music/routing/music-r-to-R", {
        id: "music-r-to-R",
        sourceChannelId: "music-r",
        channelId: "R",
        gainDb: 0,
      }),
    ],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      const source = context.sources.get(preset.sourceId)?.item;
      // An unlabelled channel might be the missing one: another rule asks for its label.
      if (source === undefined || hasUnlabelled(source)) continue;
      for (const label of FORMAT_CHANNELS[preset.format]) {
        if (sourceCarries(context, preset.sourceId, label, preset.format)) continue;
        // ISDCF Document 4 gives Cs no position: told by the rule about positions.
        if (source.assignment === "isdcf-doc4-2017" && label === "Cs") continue;
        yield {
          path: ["presets", index, "sourceId"],
          words: `${source.label} carries no ${CHANNELS[label].name} (${label}), which ${preset.format} needs.`,
          numbers: { channel: label, format: preset.format, sourceId: source.id },
        };
      }
    }
  },
});

function hasUnlabelled(source: {
  readonly assignment: string;
  readonly channels: readonly { readonly carries?: string }[];
}) {
  return source.assignment === "as-labelled" && source.channels.some(({ carries }) => carries === undefined);
}
