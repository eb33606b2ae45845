import { pointerParts } from "../../base/findings/index.ts";
import type { DocumentSchema } from "../generated/validators.js";
import { setAtPosition } from "../tree/index.ts";
import { duplicateIds } from "./duplicate-ids.ts";
import { labelProblems } from "./label-problems.ts";
import type { ShapeProblem } from "./shape-problem.ts";
import { shapeProblem } from "./shape-words.ts";

/** What is wrong with the shape of a document: the first problems in the order of the document, and how many there are. */
export interface Shape {
  readonly problems: readonly ShapeProblem[];
  readonly total: number;
}

/** How many errors are put into words: a broken document may have hundreds of thousands. */
const MAX_WORDED = 50;

/**
 * Checks a value against a schema and its ids for doubles.
 *
 * @param dropUnknownFields true: fields that the schema does not know are left out of the value instead of reported
 */
export function checkShape(
  value: unknown,
  schema: DocumentSchema,
  { dropUnknownFields }: { readonly dropUnknownFields: boolean },
): { readonly value: unknown; readonly shape: Shape; readonly dropped: readonly string[] } {
  const { validate } = schema;
  if (validate(value)) return { value, shape: listed(beyondSchema(value, schema)), dropped: [] };
  const errors = validate.errors ?? [];
  const unknown = errors.filter((error) => error.keyword === "additionalProperties");
  if (dropUnknownFields && unknown.length > 0) {
    const dropped = unknown.map((error) => shapeProblem(error, value, schema)!.pointer);
    const kept = withoutFields(value, dropped);
    const again = checkShape(kept, schema, { dropUnknownFields: false });
    return { ...again, dropped };
  }
  const worded = errors.slice(0, 4 * MAX_WORDED).flatMap((error) => shapeProblem(error, value, schema) ?? []);
  const silent = errors.filter((error) => error.keyword === "if").length;
  const problems = [...withoutRepeats(worded), ...beyondSchema(value, schema)];
  return { value, shape: listed(problems, Math.max(problems.length, errors.length - silent)), dropped: [] };
}

/** What no schema can say. */
function beyondSchema(value: unknown, { kind }: DocumentSchema): readonly ShapeProblem[] {
  return [...duplicateIds(value, kind), ...labelProblems(value, kind)];
}

function listed(problems: readonly ShapeProblem[], total = problems.length): Shape {
  return {
    problems: problems.slice(0, MAX_WORDED),
    total: problems.length < MAX_WORDED ? problems.length : total,
  };
}

function withoutRepeats(problems: readonly ShapeProblem[]): ShapeProblem[] {
  const seen = new Set<string>();
  return problems.filter(({ pointer, words }) => {
    const key = `${pointer}\n${words}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function withoutFields(value: unknown, pointers: readonly string[]): unknown {
  const copy = structuredClone(value) as object;
  for (const pointer of pointers) setAtPosition(copy, pointerParts(pointer), undefined);
  return copy;
}
