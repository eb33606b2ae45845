import { printScaleMark } from "../../words/index.ts";
import type { SvgNode } from "../document.ts";

/** A rectangle of a drawing that curves are drawn in, with its two scales. */
export interface Panel {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** The range of the vertical scale in dB. */
  readonly fromDb: number;
  readonly toDb: number;
}

/** The range of the frequency scale, logarithmic, in Hz. */
const FROM_HZ = 20;
const TO_HZ = 20_000;

/** Octave mid-bands that carry a number (IEC 61260-1, nominal). */
const OCTAVES_HZ = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000] as const;

/** Exponents of the third-octave mid-bands from 20 Hz to 20 kHz: 10^(n/10) Hz. */
const THIRD_OCTAVES = Array.from({ length: 31 }, (_, index) => 13 + index);

export function node(
  tag: string,
  attributes: SvgNode["attributes"],
  children: readonly (SvgNode | string)[] = [],
): SvgNode {
  return { tag, attributes, children };
}

/** One decimal of a unit of the drawing is far below a pixel. */
function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

export function xOf({ left, width }: Panel, frequencyHz: number): number {
  return tenth(left + (width * Math.log(frequencyHz / FROM_HZ)) / Math.log(TO_HZ / FROM_HZ));
}

/** Levels outside the range stay at its edge. */
export function yOf({ top, height, fromDb, toDb }: Panel, levelDb: number): number {
  const inside = Math.min(toDb, Math.max(fromDb, levelDb));
  return tenth(top + (height * (toDb - inside)) / (toDb - fromDb));
}

export interface AxesOptions {
  /** Distance of two levels that carry a number, in dB. */
  readonly stepDb: number;
  /** Stands above the right end. */
  readonly unit: string;
  /** Frequencies that carry a number, in Hz. @defaultValue every octave from 31.5 Hz to 16 kHz */
  readonly labelsHz?: readonly number[];
}

/** Grid, ticks of every third octave, numbers of the octaves and of the levels. */
export function axes(panel: Panel, { stepDb, unit, labelsHz = OCTAVES_HZ }: AxesOptions): SvgNode[] {
  const { left, top, width, height } = panel;
  const bottom = top + height;
  const thirds = THIRD_OCTAVES.map((exponent) => xOf(panel, 10 ** (exponent / 10)));
  const octaves = labelsHz.map((hz) => ({
    x: xOf(panel, hz),
    text: hz >= 1000 ? `${hz / 1000}k` : String(hz),
  }));
  const count = Math.floor((panel.toDb - panel.fromDb) / stepDb) + 1;
  const levels = Array.from({ length: count }, (_, index) => panel.fromDb + index * stepDb);
  return [
    ...thirds.map((x) => node("line", { class: "fine", x1: x, x2: x, y1: top, y2: bottom })),
    ...octaves.map(({ x }) => node("line", { class: "grid", x1: x, x2: x, y1: top, y2: bottom + 4 })),
    ...levels.map((level) =>
      node("line", {
        class: level === 0 ? "zero" : "grid",
        x1: left,
        x2: left + width,
        y1: yOf(panel, level),
        y2: yOf(panel, level),
      }),
    ),
    ...octaves.map(({ x, text }) =>
      node("text", { class: "soft", x, y: bottom + 18, "text-anchor": "middle" }, [text]),
    ),
    ...levels.map((level) =>
      node("text", { class: "soft", x: left - 6, y: yOf(panel, level) + 5, "text-anchor": "end" }, [
        printScaleMark(level),
      ]),
    ),
    node("text", { class: "soft", x: left + width, y: top - 6, "text-anchor": "end" }, [unit]),
  ];
}

/** A curve of levels over frequency. */
export function curve(
  panel: Panel,
  frequenciesHz: readonly number[],
  levelsDb: readonly number[],
  attributes: SvgNode["attributes"],
): SvgNode {
  return node("polyline", { ...attributes, points: points(panel, frequenciesHz, levelsDb) });
}

/** The area between a curve and 0 dB. */
export function area(panel: Panel, frequenciesHz: readonly number[], levelsDb: readonly number[]): SvgNode {
  const zero = yOf(panel, 0);
  const first = xOf(panel, frequenciesHz[0] ?? FROM_HZ);
  const last = xOf(panel, frequenciesHz.at(-1) ?? TO_HZ);
  const outline = `${first},${zero} ${points(panel, frequenciesHz, levelsDb)} ${last},${zero}`;
  return node("polygon", { class: "area", points: outline });
}

function points(panel: Panel, frequenciesHz: readonly number[], levelsDb: readonly number[]): string {
  return frequenciesHz.map((hz, index) => `${xOf(panel, hz)},${yOf(panel, levelsDb[index] ?? 0)}`).join(" ");
}

/** The range that holds all levels, its ends multiples of a step, at least `least` dB wide around 0. */
export function rangeOf(
  levelsDb: readonly number[],
  { stepDb, least }: { readonly stepDb: number; readonly least: number },
): { readonly fromDb: number; readonly toDb: number } {
  const low = Math.min(-least / 2, ...levelsDb);
  const high = Math.max(least / 2, ...levelsDb);
  return { fromDb: Math.floor(low / stepDb) * stepDb, toDb: Math.ceil(high / stepDb) * stepDb };
}

/** Least distance of two numbers of the level scale, in units of the drawing. */
const LEAST_GAP = 20;

/** Steps of the level scale that leave its numbers room. */
export function stepOf({ fromDb, toDb, height }: Panel): number {
  return (
    [3, 6, 12].find(
      (step) => ((toDb - fromDb) / step) * LEAST_GAP <= height && (toDb - fromDb) % step === 0,
    ) ?? 3
  );
}
