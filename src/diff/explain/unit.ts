import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { counted } from "../phrases.ts";
import { type Scene, subjectAt } from "../scene.ts";
import { at, within } from "../select.ts";
import { settingsDraft } from "./settings.ts";

const CONNECTORS = [
  "sources[].channels[].connectorId",
  "outputs[].connectorId",
  "automation[].trigger.connectorId",
] as const;

/** The unit itself: model, serial number, firmware, sample rate; between two models also the cables. */
export const explainUnit: Explainer = (scene, open) => {
  const causes = within(open, "unit");
  return {
    drafts: [
      ...(causes.length === 0 ? [] : [unitDraft(scene, causes)]),
      ...(scene.otherModel ? cablesDraft(scene, at(open, ...CONNECTORS)) : []),
    ],
  };
};

function unitDraft(scene: Scene, causes: readonly Change[]): Draft {
  const other = (name: string): boolean => causes.some(({ field }) => field === `unit.${name}`);
  const code = scene.otherModel ? "unit/other-model" : other("serial") ? "unit/other-unit" : "unit/changed";
  const record = code === "unit/changed" && causes.every(({ field }) => /label|profileRevision/.test(field));
  return settingsDraft(scene, causes, 1, {
    code,
    kind: record ? "record" : "operation",
    severity: record ? "advice" : "warning",
    ...(code === "unit/changed" ? {} : { remedy: "Check every way alone, at low level, before full level." }),
  });
}

function cablesDraft(scene: Scene, causes: readonly Change[]): Draft[] {
  if (causes.length === 0) return [];
  return [
    {
      code: "unit/other-connectors",
      kind: "routing",
      severity: "warning",
      subject: { ...subjectAt(scene, ["unit"]), words: "Cables" },
      words: `${counted(causes.length, "signal uses", "signals use")} a connector of another name on this model.`,
      remedy: "Work through the re-patch sheet of the migration.",
      causes,
    },
  ];
}
