import { fieldAt } from "../../../model/index.ts";
import { NUMBER_LISTS } from "./field-values.ts";
import { listsIn, type Shape, scalarsIn } from "./shape.ts";
import { likeness, meaningOf, meaningOfField } from "./vocabulary.ts";

/** A plain list of numbers: in one text, or each by itself. */
export interface NumbersMatch {
  readonly field: string;
  readonly path: string;
  readonly at: string;
  /** What stands between numbers in one text; absent where each stands by itself. */
  readonly separator?: string;
  /** The numbers as they stand. */
  readonly raws: readonly string[];
}

/** So many numbers in one text are a list. */
const LEAST_COUNT = 5;

/** Lists of numbers in an item, for fields that are such lists. */
export function numberListOf(
  prefix: string,
  item: Shape,
  used: ReadonlySet<string>,
): readonly NumbersMatch[] {
  const wanted = NUMBER_LISTS.filter(
    (path) => path.startsWith(prefix) && !path.slice(prefix.length, -2).includes("[]"),
  );
  const texts = scalarsIn(item).flatMap(([at, { leaves }]) => {
    const raws = leaves.map(({ raw }) => raw);
    const separator = used.has(at) ? undefined : separatorOf(raws);
    if (separator === undefined) return [];
    const split = raws.flatMap((raw) => raw.split(separator)).map((part) => part.trim());
    return [{ at, separator, raws: split.filter((part) => part !== "") }];
  });
  const lists = listsIn(item).flatMap(([at, { item: one }]) =>
    one.kind === "scalar" ? [{ at, raws: one.leaves.map(({ raw }) => raw) }] : [],
  );
  const found: NumbersMatch[] = [];
  for (const candidate of [...texts, ...lists]) {
    const free = wanted.filter((path) => !found.some((match) => match.path === path));
    const [best] = [...free].sort(
      (a, b) => nameFit(b, prefix, candidate.at) - nameFit(a, prefix, candidate.at),
    );
    if (best === undefined || best.endsWith("taps[]")) continue;
    found.push({ field: best.slice(prefix.length, -2), path: best, ...candidate });
  }
  return found;
}

function nameFit(path: string, prefix: string, at: string): number {
  return (
    likeness(meaningOfField(path.slice(prefix.length)), meaningOf(at)) - (fieldAt(path)?.unit === "" ? 1 : 0)
  );
}

function separatorOf(raws: readonly string[]): string | undefined {
  const filled = raws.filter((raw) => raw.trim() !== "");
  return [" ", ";", ",", "/"].find(
    (separator) =>
      filled.length > 0 &&
      filled.every((raw) => {
        const parts = raw.trim().split(separator);
        return parts.length >= LEAST_COUNT && parts.every((part) => /^[+-]?[\d.,]+$/.test(part.trim()));
      }),
  );
}
