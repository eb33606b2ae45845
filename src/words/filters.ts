import type { EqBand } from "../model/index.ts";
import { printHz, printLevel, printNumber } from "./numbers.ts";

/** In a comparison: "peaking 1.25 kHz, −3.0 dB, Q 2.00, bypassed". */
export function filterInComparison(band: EqBand): string {
  const gain = "gainDb" in band ? `, ${printLevel(band.gainDb)}` : "";
  const width =
    "q" in band && band.q !== undefined
      ? `, Q ${printNumber(band.q, 2)}`
      : "slope" in band && band.slope !== undefined
        ? `, slope ${printNumber(band.slope, 2)}`
        : "";
  const off = band.enabled === false ? ", bypassed" : "";
  return `${band.kind} ${printHz(band.frequencyHz)}${gain}${width}${off}`;
}

const ORDERS: Readonly<Record<number, string>> = { 1: "first order", 2: "second order" };

/**
 * The width of a filter on an entry sheet: "Q 2.00", "S 1.0", "second order".
 *
 * @param print how its numbers are printed
 */
export function filterWidthToKeyIn(
  band: EqBand,
  print: <Band extends EqBand>(band: Band, member: keyof Band & string) => string,
): string {
  return [
    ...("order" in band ? [ORDERS[band.order] ?? `order ${band.order}`] : []),
    ...("slope" in band && band.slope !== undefined ? [`S ${print(band, "slope")}`] : []),
    ...("q" in band && band.q !== undefined ? [`Q ${print(band, "q")}`] : []),
  ].join(", ");
}

/** Filters are in use unless they say otherwise. */
export function inUse(enabled: boolean | undefined): string {
  return enabled === false ? "off" : "on";
}
