import type { Preset } from "../../../model/index.ts";
import type { Block } from "../../document.ts";
import type { SheetContext } from "./context.ts";

/** Every preset by its slot: what it calls up, and its crossings. */
export function presetGroups(context: SheetContext): readonly (readonly Block[])[] {
  const { configuration, words, numbers, profile } = context;
  return [...configuration.presets]
    .sort((a, b) => a.slot - b.slot)
    .map((preset): readonly Block[] => [
      { kind: "heading", level: 3, text: `Slot ${preset.slot}: '${preset.label}'` },
      {
        kind: "list",
        marker: "box",
        items: [
          { lead: "Slot and name", text: `${preset.slot}, ${preset.label}` },
          { lead: "Source", text: words.source(preset.sourceId) },
          { lead: "Format", text: preset.format },
          { lead: "EQ set", text: words.equalization(preset.equalizationId) },
          { lead: "Level", text: numbers.db(preset, "levelDb") },
          { lead: "Program delay", text: numbers.delay(preset, profile.presets.delay) },
          { lead: "Fader at recall", text: numbers.fader(preset) },
        ],
      },
      ...(preset.routing.length === 0 ? [] : [crossingTable(preset, context)]),
    ]);
}

function crossingTable({ label, routing }: Preset, { configuration, words, numbers }: SheetContext): Block {
  const positions = new Map(
    configuration.sources.flatMap(({ channels }) =>
      channels.map(({ id, position }) => [id, position] as const),
    ),
  );
  const positionOf = (id: string) => positions.get(id) ?? Number.POSITIVE_INFINITY;
  return {
    kind: "table",
    caption: `Crossings of '${label}'`,
    boxes: true,
    columns: [
      { header: "Source position", align: "end" },
      { header: "To channel" },
      { header: "Gain", align: "end" },
    ],
    rows: [...routing]
      .sort((a, b) => positionOf(a.sourceChannelId) - positionOf(b.sourceChannelId))
      .map((route) => [
        String(positions.get(route.sourceChannelId) ?? route.sourceChannelId),
        words.channel(route.channelId),
        numbers.db(route, "gainDb"),
      ]),
  };
}
