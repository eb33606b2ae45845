import { BoothkeepError } from "../../../base/errors/index.ts";
import { interpret } from "../interpret.ts";
import type { LoadedMap } from "../load-map.ts";
import { readTree } from "../sources/index.ts";
import { applyEdits } from "../text-edit.ts";
import { itemsToAdd, itemsToRemove } from "./item-changes.ts";
import { numbersToChange } from "./number-changes.ts";
import { placesToEmpty, placesToFill } from "./place-changes.ts";
import type { ExportState, PlannedChange } from "./planned-change.ts";
import type { Writer } from "./writer.ts";

export interface RestructuredExport extends ExportState {
  /** What was changed, in its order. */
  readonly done: readonly PlannedChange[];
}

/** No unit has so many items and places to be added and taken away at once. */
const MOST_ROUNDS = 2000;

/**
 * Adds to an export the items and places that a configuration has more, then takes out those that it lacks: in rounds,
 * since an item can be filled only once it is there. After each round the text is read again; a change that does not read as
 * it was meant is not made.
 */
export function restructure(from: ExportState, writer: Writer, loaded: LoadedMap): RestructuredExport {
  const phases = [
    (state: ExportState) => [
      ...itemsToAdd(state, writer, loaded),
      ...placesToFill(state, writer),
      ...numbersToChange(state, writer, "add"),
    ],
    (state: ExportState) => [
      ...itemsToRemove(state, writer),
      ...placesToEmpty(state, writer),
      ...numbersToChange(state, writer, "remove"),
    ],
  ];
  const refused = new Set<string>();
  const done: PlannedChange[] = [];
  let state = from;
  for (const plan of phases) {
    let most = Number.POSITIVE_INFINITY;
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      const planned = plan(state).filter(({ id }) => !refused.has(id));
      if (planned.length === 0) break;
      const taken = planned.slice(0, most);
      const next = made(taken, state, writer, loaded);
      const failed = next === undefined ? taken : taken.filter(({ holds }) => !holds(next.interpretation));
      if (failed.length === 0) {
        state = next!;
        done.push(...taken);
        most *= 2;
      } else if (taken.length > 1) most = Math.ceil(taken.length / 2);
      else refused.add(taken[0]!.id);
    }
  }
  return { ...state, done };
}

/** The export with the changes made; undefined where the format has no way to make them. */
function made(
  planned: readonly PlannedChange[],
  { text, tree }: ExportState,
  writer: Writer,
  loaded: LoadedMap,
): ExportState | undefined {
  const edits = tree.restructure(planned.flatMap(({ changes }) => changes));
  if (edits === undefined) return undefined;
  const next = applyEdits(text, edits);
  try {
    const nextTree = readTree(next, loaded.map.source);
    const interpretation = interpret(nextTree, loaded, writer.circumstances);
    return { text: next, tree: nextTree, interpretation };
  } catch (error) {
    if (error instanceof BoothkeepError) return undefined;
    throw error;
  }
}
