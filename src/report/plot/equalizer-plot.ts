import { printDb } from "../../units/index.ts";
import type { Figure, SvgNode } from "../document.ts";
import { axes, curve, node, type Panel, rangeOf } from "./axes.ts";

/** What an EQ set does to one program channel. */
export interface EqualizerCurve {
  readonly channel: string;
  /** In Hz, ascending. */
  readonly frequenciesHz: readonly number[];
  readonly levelsDb: readonly number[];
}

const WIDTH = 600;
const COLUMNS = 2;
const CELL = { width: 300, height: 158 } as const;
const LABELS_HZ = [63, 250, 1000, 4000, 16_000];

/** The equalizers of an EQ set, channel by channel, on one scale. */
export function equalizerPlot(set: string, curves: readonly EqualizerCurve[]): Figure {
  const range = rangeOf(
    curves.flatMap(({ levelsDb }) => levelsDb),
    { stepDb: 6, least: 12 },
  );
  const rows = Math.ceil(curves.length / COLUMNS);
  const drawing = node(
    "svg",
    { class: "plot", viewBox: `0 0 ${WIDTH} ${rows * CELL.height}` },
    curves.flatMap((one, index) => cell(one, index, range)),
  );
  const extremes = curves.map(
    ({ channel, levelsDb }) =>
      `${channel} ${printDb(Math.min(...levelsDb))} to ${printDb(Math.max(...levelsDb))}`,
  );
  return {
    kind: "figure",
    caption: `EQ set ${set}, level in dB over frequency in Hz`,
    alt: `Range of the equalizer of each channel: ${extremes.join("; ")}.`,
    drawing,
  };
}

function cell(
  { channel, frequenciesHz, levelsDb }: EqualizerCurve,
  index: number,
  range: Pick<Panel, "fromDb" | "toDb">,
): readonly SvgNode[] {
  const left = (index % COLUMNS) * CELL.width;
  const top = Math.floor(index / COLUMNS) * CELL.height;
  const panel: Panel = {
    left: left + 40,
    top: top + 26,
    width: CELL.width - 52,
    height: CELL.height - 56,
    ...range,
  };
  return [
    node("text", { x: panel.left, y: top + 18 }, [channel]),
    ...axes(panel, { stepDb: 6, unit: "", labelsHz: LABELS_HZ }),
    curve(panel, frequenciesHz, levelsDb, { class: "after" }),
  ];
}
