import { FINDING_KINDS, type FindingKind } from "../../../base/findings/index.ts";
import { fieldAt, fieldsUnder } from "../../../model/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Explainer } from "../explainer.ts";
import { byItem } from "../select.ts";
import { settingsDraft } from "./settings.ts";

/** Takes whatever nobody claimed, item by item, so that no change goes untold. Must stand last. */
export const explainRest: Explainer = (scene, open) => ({
  drafts: byItem(open, 2).map((causes) => {
    const kind = kindOf(causes);
    return settingsDraft(scene, causes, Math.min(2, ...causes.map(({ path }) => path.length)), {
      code: "setting/changed",
      kind,
      severity: kind === "record" ? "advice" : "warning",
    });
  }),
});

/** The most serious kind among the fields that changed, by the table of fields. */
function kindOf(causes: readonly Change[]): FindingKind {
  const kinds = causes.flatMap(({ field }) => {
    const own = fieldAt(field);
    return (own === undefined ? fieldsUnder(field) : [own]).map(({ kind }) => kind);
  });
  return FINDING_KINDS.find((kind) => kinds.includes(kind)) ?? "record";
}
