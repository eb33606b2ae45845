import { printDb } from "../../words/index.ts";
import type { Figure, SvgNode } from "../document.ts";
import { largestWords } from "./alternative.ts";
import { axes, curve, node, type Panel, rangeOf, stepOf } from "./axes.ts";
import { BEFORE_AFTER, legend } from "./legend.ts";

/** What an EQ set does to one program channel. */
export interface EqualizerCurve {
  readonly channel: string;
  /** In Hz, ascending. */
  readonly frequenciesHz: readonly number[];
  readonly levelsDb: readonly number[];
  /** What it was before, where it is compared. */
  readonly beforeDb?: readonly number[];
}

const WIDTH = 600;
const COLUMNS = 2;
const CELL = { width: 300, height: 158 } as const;
const LABELS_HZ = [63, 250, 1000, 4000, 16_000];

/** Room above the cells for what the curves are. */
const LEGEND = 28;

/** The equalizers of an EQ set, channel by channel, on one scale; with those before where they are compared. */
export function equalizerPlot(set: string, curves: readonly EqualizerCurve[]): Figure {
  const range = rangeOf(
    curves.flatMap(({ levelsDb, beforeDb = [] }) => [...levelsDb, ...beforeDb]),
    { stepDb: 6, least: 12 },
  );
  const compared = curves.some(({ beforeDb }) => beforeDb !== undefined);
  const top = compared ? LEGEND : 0;
  const rows = Math.ceil(curves.length / COLUMNS);
  const drawing = node("svg", { class: "plot", viewBox: `0 0 ${WIDTH} ${top + rows * CELL.height}` }, [
    ...(compared ? legend(BEFORE_AFTER, 40, 20) : []),
    ...curves.flatMap((one, index) => cell(one, { index, top, range })),
  ]);
  return {
    kind: "figure",
    caption: `EQ set ${set}, level in dB over frequency in Hz`,
    alt: compared
      ? `Largest difference of each channel, after minus before: ${curves.map(differenceWords).join("; ")}.`
      : `Range of the equalizer of each channel: ${curves.map(rangeWords).join("; ")}.`,
    drawing,
  };
}

function rangeWords({ channel, levelsDb }: EqualizerCurve): string {
  return `${channel} ${printDb(Math.min(...levelsDb))} to ${printDb(Math.max(...levelsDb))}`;
}

function differenceWords({ channel, frequenciesHz, levelsDb, beforeDb = [] }: EqualizerCurve): string {
  const differences = levelsDb.map((level, index) => level - (beforeDb[index] ?? 0));
  return `${channel} ${largestWords(frequenciesHz, differences)}`;
}

interface CellPlace {
  readonly index: number;
  /** Where the first row of cells starts. */
  readonly top: number;
  readonly range: Pick<Panel, "fromDb" | "toDb">;
}

function cell(one: EqualizerCurve, { index, top, range }: CellPlace): readonly SvgNode[] {
  const { channel, frequenciesHz, levelsDb, beforeDb } = one;
  const left = (index % COLUMNS) * CELL.width;
  const y = top + Math.floor(index / COLUMNS) * CELL.height;
  const panel: Panel = {
    left: left + 40,
    top: y + 26,
    width: CELL.width - 52,
    height: CELL.height - 56,
    ...range,
  };
  return [
    node("text", { x: panel.left, y: y + 18 }, [channel]),
    ...axes(panel, { stepDb: stepOf(panel), unit: "", labelsHz: LABELS_HZ }),
    ...(beforeDb === undefined ? [] : [curve(panel, frequenciesHz, beforeDb, { class: "before" })]),
    curve(panel, frequenciesHz, levelsDb, { class: "after" }),
  ];
}
