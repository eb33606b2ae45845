import type { Configuration, Output, UnitProfile } from "../../model/index.ts";
import type { Block, Item } from "../document.ts";
import { delayWords } from "./entry-sheet-delay.ts";
import { crossoverWords, type EntryWords, exactDb, exactMs, filterCells } from "./entry-sheet-words.ts";

/** Every output along the rear panel: what it plays, what guards it, and its numbers. */
export function outputBlocks(
  configuration: Configuration,
  words: EntryWords,
  profile: UnitProfile,
): readonly Block[] {
  const place = new Map(profile.connectors.map((item) => [item.id, item.rack * 1000 + item.position]));
  return [...configuration.outputs]
    .sort((a, b) => (place.get(a.connectorId) ?? 0) - (place.get(b.connectorId) ?? 0))
    .flatMap((output): readonly Block[] => [
      { kind: "heading", level: 3, text: `${words.connector(output.connectorId)}: ${output.label}` },
      {
        kind: "list",
        marker: "box",
        items: settings(output, words, profile, configuration.unit.sampleRateHz),
      },
      ...(output.filters.length === 0
        ? []
        : [
            {
              kind: "table" as const,
              caption: `Driver EQ of ${output.label}`,
              boxes: true,
              columns: [
                { header: "", align: "end" as const },
                { header: "Kind" },
                { header: "Frequency", align: "end" as const },
                { header: "Gain", align: "end" as const },
                { header: "Width", align: "end" as const },
              ],
              rows: output.filters.map((band, index) => [String(index + 1), ...filterCells(band)]),
            },
          ]),
    ]);
}

function settings(
  output: Output,
  words: EntryWords,
  profile: UnitProfile,
  sampleRateHz: number,
): readonly Item[] {
  const { highPass, lowPass, limiter, fir, mix } = output;
  const mixed = mix.map(({ channelId, gainDb }) => `${words.channel(channelId)} ${exactDb(gainDb)}`);
  return [
    { lead: "Mix", text: mixed.length === 0 ? "nothing" : mixed.join(", ") },
    { lead: "High-pass", text: crossoverWords(highPass) },
    { lead: "Low-pass", text: crossoverWords(lowPass) },
    {
      lead: "Limiter",
      text:
        limiter === undefined || !limiter.enabled
          ? "off"
          : `${exactDb(limiter.thresholdDbfs)}FS, attack ${exactMs(limiter.attackMs)}, release ${exactMs(limiter.releaseMs)}`,
    },
    ...(fir === undefined ? [] : [{ lead: "FIR filter", text: `${fir.taps.length} taps, from a file` }]),
    {
      lead: "Output",
      text: `gain ${exactDb(output.gainDb)}, delay ${delayWords(output.delayMs, profile.outputs.delay, sampleRateHz)}, polarity ${output.polarity}${output.mute ? ", muted" : ""}`,
    },
  ];
}
