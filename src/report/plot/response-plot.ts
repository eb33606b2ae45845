import { printDbChange, printHz } from "../../words/index.ts";
import type { Figure, SvgNode } from "../document.ts";
import { alternative } from "./alternative.ts";
import { area, axes, curve, node, type Panel, rangeOf, stepOf, xOf, yOf } from "./axes.ts";
import { BEFORE_AFTER, legend } from "./legend.ts";

/** Levels over frequency, before and after. */
export interface ResponsePair {
  readonly title: string;
  /** In Hz, ascending. */
  readonly frequenciesHz: readonly number[];
  readonly beforeDb: readonly number[];
  readonly afterDb: readonly number[];
}

const WIDTH = 600;
const LEFT = 46;
const PLOT_WIDTH = WIDTH - LEFT - 10;

/** Room above and below the difference for the words at its peak. */
const ROOM = 1.6;

/** A response before and after above, the difference below, on one frequency scale. */
export function responsePlot({ title, frequenciesHz, beforeDb, afterDb }: ResponsePair): Figure {
  const difference = afterDb.map((level, index) => level - (beforeDb[index] ?? 0));
  const upper: Panel = {
    left: LEFT,
    top: 44,
    width: PLOT_WIDTH,
    height: 170,
    ...rangeOf([...beforeDb, ...afterDb], { stepDb: 3, least: 12 }),
  };
  const lower: Panel = {
    left: LEFT,
    top: 262,
    width: PLOT_WIDTH,
    height: 90,
    ...rangeOf(
      difference.map((db) => db * ROOM),
      { stepDb: 3, least: 6 },
    ),
  };
  const drawing: SvgNode = node("svg", { class: "plot", viewBox: `0 0 ${WIDTH} 380` }, [
    ...legend(BEFORE_AFTER, LEFT, 20),
    ...axes(upper, { stepDb: stepOf(upper), unit: "dB over Hz" }),
    curve(upper, frequenciesHz, beforeDb, { class: "before" }),
    curve(upper, frequenciesHz, afterDb, { class: "after" }),
    node("text", { x: LEFT, y: 256 }, ["difference"]),
    ...axes(lower, { stepDb: stepOf(lower), unit: "dB over Hz" }),
    area(lower, frequenciesHz, difference),
    curve(lower, frequenciesHz, difference, { class: "change" }),
    ...largest(lower, frequenciesHz, difference),
  ]);
  return {
    kind: "figure",
    caption: title,
    alt: alternative("Difference, after minus before", frequenciesHz, difference),
    drawing,
  };
}

/** Nearer than this to a side a text does not stand in the middle of its point. */
const EDGE = 80;

/** A mark at the largest difference, with its numbers. */
function largest(panel: Panel, frequenciesHz: readonly number[], difference: readonly number[]): SvgNode[] {
  const most = difference.reduce(
    (best, db, index) => (Math.abs(db) > Math.abs(difference[best] ?? 0) ? index : best),
    0,
  );
  const [hz, db] = [frequenciesHz[most], difference[most]];
  if (hz === undefined || db === undefined) return [];
  const x = xOf(panel, hz);
  const text = `${printDbChange(db)} at ${printHz(Number(hz.toPrecision(2)))}`;
  const anchor = x < panel.left + EDGE ? "start" : x > panel.left + panel.width - EDGE ? "end" : "middle";
  const place = { x, y: yOf(panel, db) + (db > 0 ? -9 : 20), "text-anchor": anchor };
  return [
    node("circle", { class: "mark", cx: x, cy: yOf(panel, db), r: 4 }),
    node("text", { class: "halo", ...place }, [text]),
  ];
}
