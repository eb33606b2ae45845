import type { EqBand } from "../../../model/index.ts";
import { filterWidthToKeyIn, inUse } from "../../../words/index.ts";
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
      inUse(band.enabled),
      numbers.hz(band, "frequencyHz"),
      "gainDb" in band ? numbers.db(band, "gainDb") : "",
      filterWidthToKeyIn(band, numbers.plain),
    ]),
  };
}
