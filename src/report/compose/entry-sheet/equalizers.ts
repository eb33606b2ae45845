import type { ChannelEq, EqSet, GraphicLayout } from "../../../model/index.ts";
import { inUse } from "../../../words/index.ts";
import type { Block, Table } from "../../document.ts";
import type { SheetContext } from "./context.ts";
import { filterTable } from "./filters.ts";

/** Nominal mid-bands of third octaves from 20 Hz to 20 kHz. Source: IEC 61260-1, ISO 266. */
const THIRD_OCTAVES = [
  "20",
  "25",
  "31.5",
  "40",
  "50",
  "63",
  "80",
  "100",
  "125",
  "160",
  "200",
  "250",
  "315",
  "400",
  "500",
  "630",
  "800",
  "1 k",
  "1.25 k",
  "1.6 k",
  "2 k",
  "2.5 k",
  "3.15 k",
  "4 k",
  "5 k",
  "6.3 k",
  "8 k",
  "10 k",
  "12.5 k",
  "16 k",
  "20 k",
] as const;

/** Which of them each layout has: the first one and every how many. */
const BANDS: Readonly<
  Record<GraphicLayout, { readonly from: number; readonly every: number; readonly count: number }>
> = {
  "third-octave-31": { from: 0, every: 1, count: 31 },
  "third-octave-27": { from: 3, every: 1, count: 27 },
  "two-thirds-octave-15": { from: 1, every: 2, count: 15 },
  "octave-10": { from: 2, every: 3, count: 10 },
};

const LAYOUT_WORDS: Readonly<Record<GraphicLayout, string>> = {
  "third-octave-31": "31 third octaves",
  "third-octave-27": "27 third octaves",
  "two-thirds-octave-15": "15 bands of two thirds of an octave",
  "octave-10": "10 octaves",
};

/** Most columns of gains in one table, so that it fits in half a page. */
const CHANNELS_PER_TABLE = 6;

/** Every EQ set: the graphic bands of all channels side by side, then the filters channel by channel. */
export function equalizationGroups(context: SheetContext): readonly (readonly Block[])[] {
  const { configuration, words } = context;
  return configuration.equalizations.flatMap((set): readonly (readonly Block[])[] => {
    const filtered = set.channels.filter(({ parametric }) => (parametric ?? []).length > 0);
    const flat = set.channels.filter(
      ({ graphic, parametric }) => graphic === undefined && (parametric ?? []).length === 0,
    );
    const noFilters = `No equalizer: ${flat.map(({ channelId }) => words.channel(channelId)).join(", ")}.`;
    const named: readonly Block[] = [
      { kind: "heading", level: 3, text: `EQ set '${set.label}'` },
      {
        kind: "list",
        marker: "box",
        items: [{ lead: "Name", text: set.label }, ...(flat.length === 0 ? [] : [{ text: noFilters }])],
      },
    ];
    const tables: readonly Table[] = [
      ...graphicTables(set, context),
      ...filtered.map((channel) => ({
        ...filterTable(channel.parametric ?? [], context.numbers),
        caption: `Filters of channel ${words.channel(channel.channelId)}`,
      })),
    ];
    return [[...named, ...tables.slice(0, 1)], ...tables.slice(1).map((table) => [table])];
  });
}

function graphicTables(set: EqSet, context: SheetContext): readonly Table[] {
  const layouts = [...new Set(set.channels.flatMap(({ graphic }) => graphic?.layout ?? []))];
  return layouts.flatMap((layout) => {
    const channels = set.channels.filter(({ graphic }) => graphic?.layout === layout);
    const count = Math.ceil(channels.length / CHANNELS_PER_TABLE);
    const start = (table: number) => Math.round((table * channels.length) / count);
    return Array.from({ length: count }, (_, table) =>
      graphicTable(layout, channels.slice(start(table), start(table + 1)), context),
    );
  });
}

function graphicTable(
  layout: GraphicLayout,
  channels: readonly ChannelEq[],
  { words, numbers }: SheetContext,
): Table {
  const { from, every, count } = BANDS[layout];
  return {
    kind: "table",
    caption: `Graphic EQ, ${LAYOUT_WORDS[layout]}, gains in dB`,
    boxes: true,
    rowNames: true,
    columns: [
      { header: "Band in Hz", align: "end" },
      ...channels.map(({ channelId }) => ({ header: words.channel(channelId), align: "end" as const })),
    ],
    rows: [
      ["In use", ...channels.map(({ graphic }) => inUse(graphic?.enabled))],
      ...Array.from({ length: count }, (_, band) => [
        THIRD_OCTAVES[from + band * every]!,
        ...channels.map(({ graphic }) => numbers.plain(graphic!.gainsDb, band)),
      ]),
    ],
  };
}
