import type { XCurveDeviation } from "../../acoustics/index.ts";
import type { Figure, SvgNode } from "../document.ts";
import { largestWords } from "./alternative.ts";
import { axes, curve, node, type Panel, rangeOf, stepOf, xOf, yOf } from "./axes.ts";
import { legend } from "./legend.ts";

/** The measured response of one program channel beside the X-curve. */
export interface MeasuredResponse {
  readonly channel: string;
  readonly bands: readonly XCurveDeviation[];
}

const WIDTH = 600;
const COLUMNS = 2;
const CELL = { width: 300, height: 190 } as const;
const LABELS_HZ = [63, 250, 1000, 4000, 16_000];
/** Room above the cells for what the curves are. */
const LEGEND = 30;

const ENTRIES = [
  { name: "measured", style: "after" },
  { name: "X-curve", style: "target" },
] as const;

/** Measured responses channel by channel on one scale, each with the X-curve and a strip of the tolerance around it. */
export function xCurvePlot(
  caption: string,
  responses: readonly MeasuredResponse[],
  { toleranceDb }: { readonly toleranceDb: number },
): Figure {
  const range = rangeOf(
    responses.flatMap(({ bands }) =>
      bands.flatMap(({ measuredDb, targetDb }) => [
        measuredDb,
        targetDb - toleranceDb,
        targetDb + toleranceDb,
      ]),
    ),
    { stepDb: 6, least: 12 },
  );
  const rows = Math.ceil(responses.length / COLUMNS);
  const strip = legend(ENTRIES, 40, 20);
  const drawing = node("svg", { class: "plot", viewBox: `0 0 ${WIDTH} ${LEGEND + rows * CELL.height}` }, [
    ...strip,
    node("rect", { class: "tolerance", x: 280, y: 8, width: 30, height: 14 }),
    node("text", { x: 316, y: 20 }, [`±${toleranceDb} dB, not verified`]),
    ...responses.flatMap((one, index) => cell(one, { index, range, toleranceDb })),
  ]);
  return {
    kind: "figure",
    caption,
    alt: `Largest distance of each channel from the X-curve, 63 Hz to 12.5 kHz: ${responses.map(distanceWords).join("; ")}.`,
    drawing,
  };
}

function distanceWords({ channel, bands }: MeasuredResponse): string {
  const judged = bands.filter((band) => band.judged);
  return `${channel} ${largestWords(
    judged.map(({ frequencyHz }) => frequencyHz),
    judged.map(({ deviationDb }) => deviationDb),
  )}`;
}

interface CellPlace {
  readonly index: number;
  readonly range: Pick<Panel, "fromDb" | "toDb">;
  readonly toleranceDb: number;
}

function cell(
  { channel, bands }: MeasuredResponse,
  { index, range, toleranceDb }: CellPlace,
): readonly SvgNode[] {
  const left = (index % COLUMNS) * CELL.width;
  const top = LEGEND + Math.floor(index / COLUMNS) * CELL.height;
  const panel: Panel = {
    left: left + 40,
    top: top + 26,
    width: CELL.width - 52,
    height: CELL.height - 56,
    ...range,
  };
  const frequenciesHz = bands.map(({ frequencyHz }) => frequencyHz);
  return [
    node("text", { x: panel.left, y: top + 18 }, [channel]),
    toleranceStrip(panel, bands, toleranceDb),
    ...axes(panel, { stepDb: stepOf(panel), unit: "", labelsHz: LABELS_HZ }),
    curve(
      panel,
      frequenciesHz,
      bands.map(({ targetDb }) => targetDb),
      { class: "target" },
    ),
    curve(
      panel,
      frequenciesHz,
      bands.map(({ measuredDb }) => measuredDb),
      { class: "after" },
    ),
    ...bands
      .filter(({ judged, deviationDb }) => judged && Math.abs(deviationDb) > toleranceDb)
      .map(({ frequencyHz, measuredDb }) =>
        node("circle", { class: "outside", cx: xOf(panel, frequencyHz), cy: yOf(panel, measuredDb), r: 3.5 }),
      ),
  ];
}

/** The area between curve plus tolerance and curve less tolerance, where bands count. */
function toleranceStrip(panel: Panel, bands: readonly XCurveDeviation[], toleranceDb: number): SvgNode {
  const judged = bands.filter((band) => band.judged);
  const corner = ({ frequencyHz, targetDb }: XCurveDeviation, side: 1 | -1) =>
    `${xOf(panel, frequencyHz)},${yOf(panel, targetDb + side * toleranceDb)}`;
  const upper = judged.map((band) => corner(band, 1));
  const lower = judged.map((band) => corner(band, -1)).reverse();
  return node("polygon", { class: "tolerance", points: [...upper, ...lower].join(" ") });
}
