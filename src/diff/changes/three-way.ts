import { isDeepStrictEqual } from "node:util";
import type { Configuration, ItemPath } from "../../model/index.ts";
import type { Change, ChangeSet } from "./change-set.ts";
import { changesBetween } from "./changes-between.ts";

/** What two documents made of one that they come from. Items are the same when their keys are. */
export interface ThreeWay {
  /** Changed by both, and to the same. */
  readonly both: readonly Change[];
  /** Changed by the first only. */
  readonly left: readonly Change[];
  /** Changed by the second only. */
  readonly right: readonly Change[];
  readonly conflicts: readonly Conflict[];
}

/** Changes of the two that meet: at one place to different values, or one inside a part that the other replaced. */
export interface Conflict {
  /** The place of the outer of the two. */
  readonly path: ItemPath;
  readonly left: readonly Change[];
  readonly right: readonly Change[];
}

/**
 * Compares two documents with the one that they both come from. Conflicts are told, never decided; they come in the
 * order of their places.
 *
 * @throws BoothkeepError as {@link changesBetween}
 */
export function threeWay(base: Configuration, left: Configuration, right: Configuration): ThreeWay {
  const ours = byPlace(changesBetween(base, left, { identity: "literal" }));
  const theirs = byPlace(changesBetween(base, right, { identity: "literal" }));
  const both = [...ours].filter(([place, change]) => isSame(change, theirs.get(place)));
  const settled = new Set(both.map(([place]) => place));
  const conflicts = conflictsBetween(without(ours, settled), without(theirs, settled));
  const meeting = new Set(conflicts.flatMap(({ left: a, right: b }) => [...a, ...b]));
  return {
    both: both.map(([, change]) => change),
    left: [...without(ours, settled).values()].filter((change) => !meeting.has(change)),
    right: [...without(theirs, settled).values()].filter((change) => !meeting.has(change)),
    conflicts,
  };
}

type ByPlace = ReadonlyMap<string, Change>;

/** A place as text; the place of anything inside it starts with it. */
function placeName(path: ItemPath): string {
  return path.map((part) => `${JSON.stringify(part)}/`).join("");
}

function byPlace({ changes }: ChangeSet): ByPlace {
  return new Map(changes.map((change) => [placeName(change.path), change]));
}

function without(changes: ByPlace, places: ReadonlySet<string>): ByPlace {
  return new Map([...changes].filter(([place]) => !places.has(place)));
}

function isSame(a: Change, b: Change | undefined): boolean {
  return isDeepStrictEqual(a, b);
}

function conflictsBetween(ours: ByPlace, theirs: ByPlace): readonly Conflict[] {
  const outer = [...ours.keys(), ...theirs.keys()].filter((place) => {
    const others = ours.has(place) ? theirs : ours;
    return (
      others.has(place) || [...others.keys()].some((other) => other !== place && other.startsWith(place))
    );
  });
  return [...new Set(outer)].sort().map((place) => ({
    path: (ours.get(place) ?? theirs.get(place))!.path,
    left: inside(ours, place),
    right: inside(theirs, place),
  }));
}

function inside(changes: ByPlace, place: string): readonly Change[] {
  return [...changes].filter(([other]) => other.startsWith(place)).map(([, change]) => change);
}
