import { counted } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { outputIn, type Scene, subjectAt } from "../scene.ts";
import { at, within } from "../select.ts";
import { settingsDraft } from "./settings.ts";

const CONNECTORS = [
  "sources[].channels[].connectorId",
  "outputs[].connectorId",
  "automation[].trigger.connectorId",
] as const;

const FADERS = ["presets[].faderMark", "operation.faderMark", "automation[].action.faderMark"] as const;

/** The unit itself: model, serial number, firmware, sample rate; between two models also the cables. */
export const explainUnit: Explainer = (scene, open) => {
  const causes = within(open, "unit");
  return {
    drafts: [
      ...(causes.length === 0 ? [] : [unitDraft(scene, causes)]),
      ...(scene.otherModel
        ? cablesDraft(
            scene,
            at(open, ...CONNECTORS),
            at(open, "outputs[]").filter((change) => isSpare(scene, change)),
          )
        : []),
      ...(scene.otherModel ? fadersDraft(scene, at(open, ...FADERS)) : []),
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

/** Whether an output that came or went feeds nothing. */
function isSpare(scene: Scene, { kind, path }: Change): boolean {
  const { before, after } = outputIn(scene, path[1]!);
  return (kind === "removed" ? before : after)?.feeds.kind === "spare";
}

function cablesDraft(scene: Scene, moved: readonly Change[], spares: readonly Change[]): Draft[] {
  if (moved.length + spares.length === 0) return [];
  const signals = `${counted(moved.length, "signal uses", "signals use")} a connector of another name on this model`;
  const spare = spares.length === 0 ? "" : "; its spare outputs are other ones";
  return [
    {
      code: "unit/other-connectors",
      kind: "routing",
      severity: "warning",
      subject: { ...subjectAt(scene, ["unit"]), words: "Cables" },
      words: `${signals}${spare}.`,
      remedy: "Work through the re-patch sheet of the migration.",
      causes: [...moved, ...spares],
    },
  ];
}

function fadersDraft(scene: Scene, causes: readonly Change[]): Draft[] {
  if (causes.length === 0) return [];
  return [
    {
      code: "unit/other-fader-scale",
      kind: "operation",
      severity: "advice",
      subject: { ...subjectAt(scene, ["operation"]), words: "Fader" },
      words: `${counted(causes.length, "fader mark stands", "fader marks stand")} on the scale of the other model.`,
      remedy: "Compare the levels in dB that the two scales give to the marks.",
      causes,
    },
  ];
}
