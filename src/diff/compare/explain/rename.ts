import { fieldAt } from "../../../model/index.ts";
import { counted, listed } from "../../../words/index.ts";
import type { ChangeSet } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { type Scene, subjectAt } from "../scene.ts";

/** Items that only have another key: one finding a list. Outputs that were followed by what they feed are no news. */
export const explainRename: Explainer = (scene) => {
  const told = scene.set.renames.filter(({ because }) => because === "same-content");
  const lists = [...new Set(told.map(({ field }) => field))];
  return {
    drafts: lists.map((field) =>
      draftOf(
        scene,
        field,
        told.filter((rename) => rename.field === field),
      ),
    ),
  };
};

function draftOf(scene: Scene, field: string, renames: ChangeSet["renames"]): Draft {
  const what = fieldAt(`${field}[].id`)?.label ?? "item";
  const pairs = renames.map(({ before, after }) => `${before} is now ${after}`);
  return {
    code: "record/key",
    kind: "record",
    severity: "advice",
    subject: { ...subjectAt(scene, renames[0]!.path), words: `Keys of the list of ${what}s` },
    words: `${counted(renames.length, `${what} has`, `${what}s have`)} another key and nothing else: ${listed(pairs)}.`,
    causes: [],
  };
}
