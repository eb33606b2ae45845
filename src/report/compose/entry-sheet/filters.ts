import type { EqBand } from "../../../model/index.ts";
import type { Table } from "../../document.ts";
import type { SheetNumbers } from "./numbers.ts";

/** A bank of filters, a row each. */
export function filterTable(bands: readonly EqBand[], numbers: SheetNumbers): Omit<Table, "caption"> {
  return {
    kind: "table",
    boxes: true,
    columns: [
      { header: "No.", align: "end" },
      { header: "Kind" },
      { header: "In use" },
      { header: "Frequency", align: "end" },
      { header: "Gain", align: "end" },
      { header: "Width" },
    ],
    rows: bands.map((band, index) => [
      String(index + 1),
      band.kind,
      inUseWords(band.enabled),
      numbers.hz(band, "frequencyHz"),
      "gainDb" in band ? numbers.db(band, "gainDb") : "",
      widthWords(band, numbers),
    ]),
  };
}

/** Filters are in use unless they say otherwise. */
export function inUseWords(enabled: boolean | undefined): string {
  return enabled === false ? "off" : "on";
}

const ORDER_WORDS: Readonly<Record<number, string>> = { 1: "first order", 2: "second order" };

function widthWords(band: EqBand, numbers: SheetNumbers): string {
  return [
    ...("order" in band ? [ORDER_WORDS[band.order] ?? `order ${band.order}`] : []),
    ...("slope" in band && band.slope !== undefined ? [`S ${numbers.plain(band, "slope")}`] : []),
    ...("q" in band && band.q !== undefined ? [`Q ${numbers.plain(band, "q")}`] : []),
  ].join(", ");
}
