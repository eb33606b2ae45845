import { fieldAt } from "../../../model/index.ts";
import { listed, quoted } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { type Scene, subjectAt } from "../scene.ts";
import { at, byItem, within } from "../select.ts";
import { settingsDraft } from "./settings.ts";

const NAMES = [
  "sources[].label",
  "channels[].label",
  "equalizations[].label",
  "presets[].label",
  "loudspeakers[].label",
  "outputs[].label",
  "automation[].label",
  "network.interfaces[].label",
];

/** More names than these are told in one finding. */
const NAMES_TOLD = 5;

const DOCUMENT = ["$schema", "kind", "schemaVersion", "notes"];

/** Names, remarks, facts of the auditorium, the document itself: what nobody hears. */
export const explainRecord: Explainer = (scene, open) => {
  const names = at(open, ...NAMES).filter((change) => change.kind === "changed");
  const screen = within(open, "screen");
  const remarks = at(open, "presets[].reason", ...DOCUMENT);
  return {
    drafts: [
      ...(names.length > NAMES_TOLD
        ? [manyNames(scene, names)]
        : names.map((change) => nameDraft(scene, change))),
      ...(screen.length === 0
        ? []
        : [settingsDraft(scene, screen, 1, { code: "record/screen", kind: "record", severity: "advice" })]),
      ...byItem(remarks, 2).map((causes) =>
        settingsDraft(scene, causes, causes[0]!.path.length > 1 ? 2 : 1, {
          code: fieldAt(causes[0]!.field)?.owner === "document" ? "record/document" : "record/remark",
          kind: "record",
          severity: "advice",
        }),
      ),
    ],
  };
};

function nameDraft(scene: Scene, change: Change): Draft {
  const [before, after] = namesOf(change);
  return {
    code: "record/name",
    kind: "record",
    severity: "advice",
    subject: subjectAt(scene, change.path.slice(0, -1)),
    words: `Named ${after}, before ${before}.`,
    before,
    after,
    causes: [change],
  };
}

function manyNames(scene: Scene, changes: readonly Change[]): Draft {
  const pairs = unique(
    changes.map((change) => {
      const [before, after] = namesOf(change);
      return `${before} is now ${after}`;
    }),
  );
  return {
    code: "record/names",
    kind: "record",
    severity: "advice",
    subject: { words: "Names", pointer: subjectAt(scene, []).pointer },
    words: `${changes.length} names differ: ${listed(pairs, pairs.length)}.`,
    causes: changes,
  };
}

function namesOf(change: Change): readonly [before: string, after: string] {
  return change.kind === "changed" ? [quoted(change.before), quoted(change.after)] : ["none", "none"];
}

function unique(words: readonly string[]): readonly string[] {
  return [...new Set(words)];
}
