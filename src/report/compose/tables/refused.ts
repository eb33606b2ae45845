import type { TableProblem } from "../../../exchange/tables/index.ts";
import type { Item, ReportDocument } from "../../document.ts";

/** Everything that is wrong with tables, cell by cell. */
export function tablesRefusedReport({
  problems,
  total,
}: {
  readonly problems: readonly TableProblem[];
  readonly total: number;
}): ReportDocument {
  return {
    title: "Nothing was taken from the tables",
    subtitle:
      total === 1
        ? "One thing has to be mended first."
        : `${total} things have to be mended first${total > problems.length ? `; the first ${problems.length}` : ""}.`,
    blocks: [{ kind: "list", marker: "number", items: problems.map(itemOf) }],
  };
}

function itemOf({ file, sheet, row, cell, heading, words, next }: TableProblem): Item {
  const where = [
    sheet === undefined ? file : `${file}, sheet '${sheet}'`,
    ...(cell === undefined ? (row === undefined ? [] : [`row ${row}`]) : [`cell ${cell}`]),
    ...(heading === undefined ? [] : [`column '${heading}'`]),
  ];
  return { lead: where.join(", "), text: words, notes: [`Next: ${next}`] };
}
