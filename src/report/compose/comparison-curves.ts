import type { Comparison } from "../../model/index.ts";
import type { Block } from "../document.ts";
import { crossoverPlot } from "../plot/crossover-plot.ts";
import { responsePlot } from "../plot/response-plot.ts";

/** Every curve that a finding refers to, as a plot. */
export function comparisonCurves({ curves }: Comparison): readonly Block[] {
  if (curves.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: "Responses" },
    ...curves.map((curve) => (curve.subject === "loudspeaker" ? crossoverPlot(curve) : responsePlot(curve))),
  ];
}
