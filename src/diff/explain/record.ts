import { fieldAt } from "../../model/index.ts";
import type { Explainer } from "../explainer.ts";
import { quoted } from "../phrases.ts";
import { subjectAt } from "../scene.ts";
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

const DOCUMENT = ["$schema", "kind", "schemaVersion", "notes"];

/** Names, remarks, facts of the auditorium, the document itself: what nobody hears. */
export const explainRecord: Explainer = (scene, open) => {
  const names = at(open, ...NAMES).filter((change) => change.kind === "changed");
  const screen = within(open, "screen");
  const remarks = at(open, "presets[].reason", ...DOCUMENT);
  return {
    drafts: [
      ...names.map((change) => ({
        code: "record/name",
        kind: "record" as const,
        severity: "advice" as const,
        subject: subjectAt(scene, change.path.slice(0, -1)),
        words: `Named ${quoted(change.after)}, before ${quoted(change.before)}.`,
        before: quoted(change.before),
        after: quoted(change.after),
        causes: [change],
      })),
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
