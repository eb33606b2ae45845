import type { ChannelEq, Configuration, EqSet, GraphicLayout } from "../../model/index.ts";
import type { Block, Table } from "../document.ts";
import { type EntryWords, exactNumber, filterCells } from "./entry-sheet-words.ts";

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

/** Columns of gains in one table, so that it fits on a page. */
const CHANNELS_PER_TABLE = 8;

/** Every EQ set: the graphic bands of all channels side by side, then the filters channel by channel. */
export function equalizationBlocks(configuration: Configuration, words: EntryWords): readonly Block[] {
  return configuration.equalizations.flatMap((set): readonly Block[] => {
    const filtered = set.channels.filter(({ parametric }) => (parametric ?? []).length > 0);
    const flat = set.channels.filter(
      ({ graphic, parametric }) => graphic === undefined && (parametric ?? []).length === 0,
    );
    return [
      { kind: "heading", level: 3, text: `EQ set '${set.label}'` },
      ...graphicTables(set, words),
      ...filtered.map((channel) => filterTable(channel, words)),
      ...(flat.length === 0
        ? []
        : [
            {
              kind: "list" as const,
              marker: "box" as const,
              items: [{ text: `Flat: ${flat.map(({ channelId }) => words.channel(channelId)).join(", ")}.` }],
            },
          ]),
    ];
  });
}

function graphicTables(set: EqSet, words: EntryWords): readonly Table[] {
  const layouts = [...new Set(set.channels.flatMap(({ graphic }) => graphic?.layout ?? []))];
  return layouts.flatMap((layout) => {
    const channels = set.channels.filter(({ graphic }) => graphic?.layout === layout);
    const tables: Table[] = [];
    for (let start = 0; start < channels.length; start += CHANNELS_PER_TABLE) {
      tables.push(graphicTable(layout, channels.slice(start, start + CHANNELS_PER_TABLE), words));
    }
    return tables;
  });
}

function graphicTable(layout: GraphicLayout, channels: readonly ChannelEq[], words: EntryWords): Table {
  const { from, every, count } = BANDS[layout];
  return {
    kind: "table",
    caption: "Graphic EQ, gains in dB",
    boxes: true,
    rowNames: true,
    columns: [
      { header: "Band in Hz", align: "end" },
      ...channels.map(({ channelId, graphic }) => ({
        header: `${words.channel(channelId)}${graphic?.enabled === false ? " (off)" : ""}`,
        align: "end" as const,
      })),
    ],
    rows: Array.from({ length: count }, (_, band) => [
      THIRD_OCTAVES[from + band * every]!,
      ...channels.map(({ graphic }) => exactNumber(graphic?.gainsDb[band] ?? 0)),
    ]),
  };
}

function filterTable({ channelId, parametric }: ChannelEq, words: EntryWords): Table {
  return {
    kind: "table",
    caption: `Filters of channel ${words.channel(channelId)}`,
    boxes: true,
    columns: [
      { header: "", align: "end" },
      { header: "Kind" },
      { header: "Frequency", align: "end" },
      { header: "Gain", align: "end" },
      { header: "Width", align: "end" },
    ],
    rows: (parametric ?? []).map((band, index) => [String(index + 1), ...filterCells(band)]),
  };
}
