import type { Comparison, ComparisonCurve, ComparisonFinding } from "../../../model/index.ts";
import type { Block, Figure } from "../../document.ts";
import { crossoverPlot } from "../../plot/crossover-plot.ts";
import { equalizerPlot } from "../../plot/equalizer-plot.ts";
import { responsePlot } from "../../plot/response-plot.ts";

/** The curves of every finding as plots, each once; an EQ set aligned anew as one plot with all its channels. */
export function comparisonCurves({ curves, findings }: Comparison): readonly Block[] {
  const drawn = new Set<number>();
  const figures = findings.flatMap((finding): readonly Figure[] => {
    const fresh = finding.curves.filter((index) => !drawn.has(index));
    for (const index of fresh) drawn.add(index);
    if (finding.code === "equalizer/retuned") return fresh.length === 0 ? [] : [setPlot(finding, curves)];
    return fresh.flatMap((index) => curves[index] ?? []).map((curve) => plotOf(finding, curve));
  });
  return figures.length === 0 ? [] : [{ kind: "heading", level: 2, text: "Responses" }, ...figures];
}

const SUBJECTS: Readonly<Record<ComparisonCurve["subject"], string>> = {
  equalizer: "equalizer",
  "driver-eq": "driver EQ",
  loudspeaker: "ways and their sum",
};

function plotOf({ place }: ComparisonFinding, curve: ComparisonCurve): Figure {
  const titled = { ...curve, title: `${place.words}: ${SUBJECTS[curve.subject]}` };
  return curve.subject === "loudspeaker" ? crossoverPlot(titled) : responsePlot(titled);
}

function setPlot(finding: ComparisonFinding, curves: readonly ComparisonCurve[]): Figure {
  const own = finding.curves.flatMap((index) => curves[index] ?? []);
  const name = finding.place.words;
  return equalizerPlot(
    name.replace(/^EQ set /, ""),
    own.map(({ title, frequenciesHz, beforeDb, afterDb }) => ({
      channel: title.replace(`, ${name}`, ""),
      frequenciesHz,
      beforeDb,
      levelsDb: afterDb,
    })),
  );
}
