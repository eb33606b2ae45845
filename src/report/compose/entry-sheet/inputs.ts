import type { Source } from "../../../model/index.ts";
import type { Block } from "../../document.ts";
import type { SheetContext } from "./context.ts";
import { SOURCE_KIND_WORDS } from "./words.ts";

const ASSIGNMENT_WORDS = {
  "isdcf-doc4-2017": "by position, ISDCF Document 4 (2017)",
  "as-labelled": "as the table says",
} as const;

/** Every source with its positions. */
export function sourceGroups(context: SheetContext): readonly (readonly Block[])[] {
  return context.configuration.sources.map((source) => [
    { kind: "heading" as const, level: 3 as const, text: `Source '${source.label}'` },
    {
      kind: "list" as const,
      marker: "box" as const,
      items: [
        { lead: "Name", text: source.label },
        { lead: "Interface", text: SOURCE_KIND_WORDS[source.kind] },
        { lead: "Channels carry", text: ASSIGNMENT_WORDS[source.assignment] },
      ],
    },
    positionTable(source, context),
  ]);
}

function positionTable({ label, channels }: Source, { words, numbers }: SheetContext): Block {
  const isLabelled = channels.some(({ carries }) => carries !== undefined);
  return {
    kind: "table",
    caption: `Positions of '${label}'`,
    boxes: true,
    columns: [
      { header: "Position", align: "end" },
      { header: "Input" },
      ...(isLabelled ? [{ header: "Carries" }] : []),
      { header: "Trim", align: "end" },
    ],
    rows: [...channels]
      .sort((a, b) => a.position - b.position)
      .map((channel) => [
        String(channel.position),
        words.connector(channel.connectorId),
        ...(isLabelled ? [channel.carries ?? ""] : []),
        numbers.db(channel, "gainDb"),
      ]),
  };
}

/** The program channels in the order of the document. */
export function channelTable({ configuration, profile, numbers }: SheetContext): Block {
  return {
    kind: "table",
    caption: "Level and delay of each program channel",
    boxes: true,
    rowNames: true,
    columns: [
      { header: "Channel" },
      { header: "Level", align: "end" },
      { header: "Delay", align: "end" },
      { header: "Mute" },
    ],
    rows: configuration.channels.map((channel) => [
      channel.label,
      numbers.db(channel, "levelDb"),
      numbers.delay(channel, profile.channels.delay),
      channel.mute ? "muted" : "not muted",
    ]),
  };
}
