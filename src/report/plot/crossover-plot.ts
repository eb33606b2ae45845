import type { ComparisonCurve } from "../../model/index.ts";
import type { Figure, SvgNode } from "../document.ts";
import { alternative } from "./alternative.ts";
import { axes, curve, node, type Panel, xOf, yOf } from "./axes.ts";
import { legend } from "./legend.ts";

const WIDTH = 600;
const LEFT = 46;
const PANEL: Panel = { left: LEFT, top: 64, width: WIDTH - LEFT - 10, height: 250, fromDb: -36, toDb: 6 };

/** A level that a way's name may stand on, below the loudest of it, in dB. */
const NAME_BELOW_DB = 3;

/** The ways of a loudspeaker and their sum, before and after. */
export function crossoverPlot({
  title,
  frequenciesHz,
  beforeDb,
  afterDb,
  ways = [],
}: ComparisonCurve): Figure {
  const ownWays = ways.filter((way) => way.afterDb.length > 0);
  const drawing: SvgNode = node("svg", { class: "plot", viewBox: `0 0 ${WIDTH} 344` }, [
    ...legend(
      [
        { name: "ways before", style: "way before" },
        { name: "ways after", style: "way after" },
      ],
      LEFT,
      20,
    ),
    ...legend(
      [
        { name: "sum before", style: "before thick" },
        { name: "sum after", style: "after thick" },
      ],
      LEFT,
      44,
    ),
    ...axes(PANEL, { stepDb: 6, unit: "dB over Hz" }),
    ...ways
      .filter((way) => way.beforeDb.length > 0)
      .map((way) => curve(PANEL, frequenciesHz, way.beforeDb, { class: "way before" })),
    ...ownWays.map((way) => curve(PANEL, frequenciesHz, way.afterDb, { class: "way after" })),
    curve(PANEL, frequenciesHz, beforeDb, { class: "before thick" }),
    curve(PANEL, frequenciesHz, afterDb, { class: "after thick" }),
    ...ownWays.map(({ wayId, afterDb: levels }) => wayName(wayId, frequenciesHz, levels)),
  ]);
  const difference = afterDb.map((level, index) => level - (beforeDb[index] ?? 0));
  return {
    kind: "figure",
    caption: `${title}. Ideal drivers, made equal in level and time by the settings before.`,
    alt: alternative("Sum of the ways, after minus before", frequenciesHz, difference),
    drawing,
  };
}

/** The name in the middle of the band that the way plays. */
function wayName(name: string, frequenciesHz: readonly number[], levelsDb: readonly number[]): SvgNode {
  const loudest = Math.max(...levelsDb);
  const band = frequenciesHz.filter((_, index) => (levelsDb[index] ?? 0) > loudest - NAME_BELOW_DB);
  const middleHz = Math.sqrt((band[0] ?? 1000) * (band.at(-1) ?? 1000));
  const at = { x: xOf(PANEL, middleHz), y: yOf(PANEL, loudest) + 22, "text-anchor": "middle" };
  return node("text", { class: "halo", ...at }, [name]);
}
