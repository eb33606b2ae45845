import type { Configuration, Preset, UnitProfile } from "../../model/index.ts";
import type { Block } from "../document.ts";
import { delayWords } from "./entry-sheet-delay.ts";
import { type EntryWords, exactDb, exactNumber } from "./entry-sheet-words.ts";

/** Every preset by its slot: what it calls up, and its crossings. */
export function presetBlocks(
  { presets, sources, unit }: Configuration,
  words: EntryWords,
  profile: UnitProfile,
): readonly Block[] {
  const positions = new Map(
    sources.flatMap(({ channels }) => channels.map(({ id, position }) => [id, position] as const)),
  );
  return [...presets]
    .sort((a, b) => a.slot - b.slot)
    .flatMap((preset): readonly Block[] => [
      { kind: "heading", level: 3, text: `Slot ${preset.slot}: '${preset.label}'` },
      {
        kind: "list",
        marker: "box",
        items: [
          {
            text: `Source '${words.source(preset.sourceId)}', format ${preset.format}, EQ set '${words.equalization(preset.equalizationId)}'.`,
          },
          {
            text: `Level ${exactDb(preset.levelDb)}, program delay ${delayWords(preset.delayMs, profile.presets.delay, unit.sampleRateHz)}${faderWords(preset)}.`,
          },
          { lead: "Crossings", text: crossingWords(preset, positions, words) },
        ],
      },
    ]);
}

function faderWords({ faderMark }: Preset): string {
  return faderMark === undefined ? "" : `, fader to mark ${exactNumber(faderMark)}`;
}

/** "1 to L 0.00 dB": the position in the source, the program channel, the gain. */
function crossingWords(
  { routing }: Preset,
  positions: ReadonlyMap<string, number>,
  words: EntryWords,
): string {
  return [...routing]
    .sort((a, b) => (positions.get(a.sourceChannelId) ?? 0) - (positions.get(b.sourceChannelId) ?? 0))
    .map(
      ({ sourceChannelId, channelId, gainDb }) =>
        `${positions.get(sourceChannelId) ?? "?"} to ${words.channel(channelId)} ${exactDb(gainDb)}`,
    )
    .join("; ");
}
