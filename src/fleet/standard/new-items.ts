import {
  type Configuration,
  fieldAt,
  fieldOf,
  type ItemPath,
  itemPath,
  type Json,
  leaves,
  type ProposedStep,
  type UnitProfile,
  valueAt,
} from "../../model/index.ts";
import { placeAtIds } from "../../words/index.ts";
import type { GivenAnswer } from "./answers.ts";
import { isInside } from "./classify.ts";
import type { CompiledStandard } from "./compile.ts";
import { deviationsFrom } from "./deviations.ts";
import { type Settled, unitSteps } from "./unit-steps.ts";
import { writeAt } from "./write-at.ts";

interface Settling {
  readonly standard: CompiledStandard;
  readonly profile: UnitProfile | undefined;
  readonly answer: (path: readonly string[]) => GivenAnswer | undefined;
}

/**
 * Items that were just added take on what other lines of the standard say of places inside them, and the unit's steps.
 * Filters of EQ sets are left alone: rounding them one by one would spoil a refit.
 *
 * @param draft is changed
 * @returns what was rounded, and what the unit cannot do and somebody has to decide
 */
export function settleNewItems(
  draft: Configuration,
  steps: readonly ProposedStep[],
  { standard, profile, answer }: Settling,
): readonly ProposedStep[] {
  const added = steps
    .filter(({ outcome, screen, result }) => outcome === "taken" && screen === null && isItem(result))
    .map(({ place }) => place.split("/"))
    .filter(([list]) => list !== "equalizations");
  if (added.length === 0) return [];
  const settle = unitSteps(draft, profile);
  const wanted = new Map<string, Settled & { readonly path: readonly string[] }>();
  for (const path of added.flatMap((item) => leafPaths(draft, item))) {
    const value = valueAt(draft, path) as Json;
    wanted.set(path.join("/"), { path, ...settle(path, value) });
  }
  for (const deviation of deviationsFrom(draft, standard, settle)) {
    if (deviation.kind !== "value" || !added.some((item) => isInside(deviation.path, item))) continue;
    wanted.set(deviation.path.join("/"), { path: deviation.path, ...deviation.wanted });
  }
  return [...wanted.values()].flatMap((item) => {
    const { path, value, reach } = item;
    const before = valueAt(draft, path) ?? null;
    // While it is open the nearest is assumed: nothing is proposed before it is decided.
    writeAt(draft, path, value);
    if (reach === "fits") return [];
    const note = answer(path);
    const isNearest = reach === "beyond" && note?.choose === "nearest";
    return [
      stepOf(
        draft,
        { path, before, value },
        reach === "rounded" ? "rounded" : isNearest ? "nearest" : "asks",
        note?.note,
      ),
    ];
  });
}

const WHY = {
  rounded: "Rounded to the unit's step.",
  nearest: "The unit cannot do what the standard says. By decision.",
  asks: "The unit cannot do what the standard says of the new item.",
} as const;

function stepOf(
  draft: Configuration,
  { path, before, value }: { readonly path: readonly string[]; readonly before: Json; readonly value: Json },
  outcome: keyof typeof WHY,
  note: string | undefined,
): ProposedStep {
  const field = fieldOf(path);
  const leaf = fieldAt(field);
  return {
    place: path.join("/"),
    field,
    words: placeAtIds(draft, path).words,
    label: leaf?.label ?? field,
    unit: leaf?.unit ?? "",
    outcome,
    why: outcome === "nearest" && note !== undefined ? `${WHY[outcome]} ${note}` : WHY[outcome],
    screen: null as Json,
    standard: before,
    result: outcome === "asks" ? null : value,
    hold: "exactly",
    ...(outcome !== "rounded" && { nearest: value }),
  } as ProposedStep;
}

function isItem(value: unknown): boolean {
  return typeof value === "object" && value !== null;
}

/** The paths of all values of a part. */
function leafPaths(draft: Configuration, path: ItemPath): readonly ItemPath[] {
  const value = valueAt(draft, path);
  if (typeof value !== "object" || value === null) return [path];
  return leaves(value).map(({ address }) => [...path, ...itemPath(address)]);
}
