import type { MicrophonePosition } from "../../../model/index.ts";
import { isUnusable, type Sheet } from "../../workbook/index.ts";
import { Problems, type TablePlace, type TableProblem } from "../taking/problem.ts";
import { readCell } from "../taking/read-cell.ts";
import { isHeading, POSITION_HEADINGS } from "./headings.ts";

/** Microphone positions from a table, or everything that is wrong with it. */
export type ReadPositions =
  | { readonly kind: "read"; readonly positions: readonly MicrophonePosition[] }
  | { readonly kind: "refused"; readonly problems: readonly TableProblem[]; readonly total: number };

/** Reads a table of microphone positions: one row each, its name and where it is, in metres. */
export function readPositions(sheet: Sheet, file: string): ReadPositions {
  const problems = new Problems();
  const place: TablePlace = { file, ...(sheet.name === undefined ? {} : { sheet: sheet.name }) };
  const [header, ...rows] = sheet.rows;
  const names =
    header?.cells.map((cell) => (cell === undefined || isUnusable(cell) ? "" : String(cell))) ?? [];
  const columnOf = (member: keyof typeof POSITION_HEADINGS): number =>
    names.findIndex((name) => isHeading(name, POSITION_HEADINGS[member]));
  for (const [member, heading] of Object.entries(POSITION_HEADINGS)) {
    if (columnOf(member as keyof typeof POSITION_HEADINGS) >= 0) continue;
    problems.add({ ...place, row: header?.number ?? 1 }, `The column '${heading}' is missing.`, "Add it.");
  }
  if (problems.total > 0) return { kind: "refused", problems: problems.listed, total: problems.total };
  const seen = new Set<string>();
  const positions = rows.map(({ number, cells }) => {
    const id = String(cells[columnOf("id")] ?? "").trim();
    const at = { ...place, row: number };
    if (!/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/.test(id) || seen.has(id)) {
      problems.add(
        { ...at, column: columnOf("id") + 1, heading: POSITION_HEADINGS.id },
        seen.has(id)
          ? `The position '${id}' stands twice.`
          : "A position needs a name of letters, digits, points and hyphens.",
        "Name each position once: p1, p2 …",
      );
    }
    seen.add(id);
    const metres = (member: "xM" | "yM" | "zM"): number => {
      const heading = POSITION_HEADINGS[member];
      const reading = readCell(cells[columnOf(member)], {
        takes: { kind: "number" },
        before: undefined,
        optional: false,
        decimal: sheet.decimal,
      });
      if (reading.kind === "value" && typeof reading.value === "number") return reading.value;
      const [words, next] =
        reading.kind === "wrong"
          ? [reading.words, reading.next]
          : ["The value is missing.", "Write it in metres."];
      problems.add({ ...at, column: columnOf(member) + 1, heading }, words, next);
      return 0;
    };
    return { id, xM: metres("xM"), yM: metres("yM"), zM: metres("zM") };
  });
  if (problems.total > 0) return { kind: "refused", problems: problems.listed, total: problems.total };
  return { kind: "read", positions };
}
