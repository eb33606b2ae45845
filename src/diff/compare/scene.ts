import {
  type ComparisonTolerances,
  type Configuration,
  type ItemPath,
  type Output,
  valueAt,
} from "../../model/index.ts";
import { placeAtIds } from "../../words/index.ts";
import { applyChanges, type ChangeSet } from "../changes/index.ts";
import type { Subject } from "./draft.ts";
import type { Sound } from "./sound.ts";

/** Everything that explainers look at. */
export interface Scene {
  /** The first document, with the keys of the second. */
  readonly before: Configuration;
  readonly after: Configuration;
  readonly set: ChangeSet;
  /** The two documents are for units of different models. */
  readonly otherModel: boolean;
  readonly tolerances: ComparisonTolerances;
  /** Computed responses of both. */
  readonly sound: Sound;
}

/** The first document with the keys of the second. */
export function aligned(before: Configuration, { renames }: ChangeSet): Configuration {
  return renames.length === 0 ? before : applyChanges(before, { renames, changes: [], orders: [] });
}

/** A place in the engineer's words: as the second document has it, or the first where the second lacks it. */
export function subjectAt(scene: Scene, path: ItemPath): Subject {
  const gone = valueAt(scene.after, path) === undefined && valueAt(scene.before, path) !== undefined;
  const document = gone ? scene.before : scene.after;
  const { words, pointer } = placeAtIds(document, path);
  const item = itemAt(path);
  return item === undefined ? { words, pointer } : { words, pointer, item };
}

function itemAt(path: ItemPath): Subject["item"] {
  const [list, id] = path;
  if (id === undefined || path.length !== 2) return undefined;
  if (list === "channels") return { kind: "channel", id };
  if (list === "outputs") return { kind: "output", id };
  return list === "presets" ? { kind: "preset", id } : undefined;
}

/** An output by its key, in both documents. */
export function outputIn(scene: Scene, id: string): { readonly before?: Output; readonly after?: Output } {
  const find = ({ outputs }: Configuration): Output | undefined => outputs.find((output) => output.id === id);
  const [before, after] = [find(scene.before), find(scene.after)];
  return { ...(before === undefined ? {} : { before }), ...(after === undefined ? {} : { after }) };
}

/** The loudspeaker that an output feeds, where it feeds the same one in both documents. */
export function loudspeakerFed(scene: Scene, outputId: string): string | undefined {
  const { before, after } = outputIn(scene, outputId);
  const fed = [before, after].map((output) =>
    output?.feeds.kind === "loudspeaker" ? output.feeds.loudspeakerId : undefined,
  );
  return fed[0] === fed[1] ? fed[0] : undefined;
}
