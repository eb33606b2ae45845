import { pointerParts } from "../../../base/findings/index.ts";
import { fieldAt, inspectDocument, type ShapeProblem } from "../../../model/index.ts";
import { fieldHeading } from "../headings.ts";
import type { Item } from "../rows.ts";
import type { Draft, DraftRow } from "./draft.ts";
import type { Problems, TablePlace } from "./problem.ts";

/**
 * Holds a draft against the schema; what is wrong is told at the cell or row that it comes from.
 * @returns whether it fits
 */
export function checkShape(draft: Draft, problems: Problems): boolean {
  const { shape } = inspectDocument(JSON.stringify(draft.root), { expect: "boothkeep.configuration" });
  const told = new Set<string>();
  for (const problem of shape.problems) {
    const found = foundIn(draft, problem);
    const { words, next } = wordsFor(problem, found);
    const key = `${found.row?.place.sheet} ${found.row?.place.row} ${words}`;
    if (!told.has(key) && !followsFromFamily(problem, shape.problems)) problems.add(found.place, words, next);
    told.add(key);
  }
  return shape.total === 0;
}

/** Whether a normalization belongs to a crossover depends on the family; while that is missing, nobody knows. */
function followsFromFamily({ pointer, meant }: ShapeProblem, all: readonly ShapeProblem[]): boolean {
  if (meant !== "normalization") return false;
  return all.some(
    (other) => other.pointer === pointer && other.fault === "missing-field" && other.meant === "family",
  );
}

function wordsFor({ fault, words, meant = "" }: ShapeProblem, { place, row, member, value }: Found) {
  const path = (...members: readonly string[]) => `${row?.list}[].${[...member, ...members].join(".")}`;
  if (fault === "missing-field" && fieldAt(path(meant)) !== undefined) {
    return { words: `'${fieldHeading(path(meant))}' is missing in this row.`, next: "Fill it in too." };
  }
  if ((fault === "unknown-field" || fault === "field-not-here") && fieldAt(path()) !== undefined) {
    return {
      words: `'${fieldHeading(path())}' does not go with the other values of this row.`,
      next: "Write 'none' in that cell, or change what it does not go with.",
    };
  }
  if (value === undefined && member.includes("gainsDb")) {
    return {
      words: "Another arrangement of bands needs a gain for each of its bands; some are missing.",
      next: "Fill them in too.",
    };
  }
  const name = member.at(-1);
  const said = place.heading === undefined ? words : words.replace(`'${name}'`, `'${place.heading}'`);
  return { words: said, next: fault === "outside-limits" ? "Write a value inside." : "Mend the cell." };
}

interface Found {
  readonly place: TablePlace;
  readonly row?: DraftRow;
  /** Members from the row's item on. */
  readonly member: readonly string[];
  readonly value: unknown;
}

/** The cell or row that a place of the draft comes from. */
function foundIn(draft: Draft, { pointer }: ShapeProblem): Found {
  let at: unknown = draft.root;
  let place: TablePlace | undefined;
  let row: DraftRow | undefined;
  let member: string[] = [];
  for (const part of pointerParts(pointer)) {
    if (typeof at !== "object" || at === null) break;
    const name = Array.isArray(at) ? Number(part) : part;
    place = draft.placeOf(at, name) ?? draft.placeOf(at, "length") ?? place;
    at = (at as Item)[part];
    member = [...member, part];
    const found = typeof at === "object" && at !== null ? draft.rowOf(at) : undefined;
    if (found === undefined) continue;
    row = found;
    place = undefined;
    member = [];
  }
  return {
    place: place ?? row?.place ?? { file: "" },
    member,
    value: at,
    ...(row === undefined ? {} : { row }),
  };
}
