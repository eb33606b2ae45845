import { type EmergencyMute, fieldAt, type ProtectionEffect } from "../../../model/index.ts";
import { listed } from "../../../words/index.ts";
import type { Explainer } from "../explainer.ts";
import { subjectAt } from "../scene.ts";
import { within } from "../select.ts";

const PLACE = ["operation", "emergencyMute"];

/** The contact by which the fire alarm silences the auditorium. Everything about it is told as most serious. */
export const explainEmergencyMute: Explainer = (scene, open) => {
  const causes = within(open, "operation.emergencyMute");
  if (causes.length === 0) return { drafts: [] };
  const before = scene.before.operation.emergencyMute;
  const after = scene.after.operation.emergencyMute;
  const guard = guardOf(before, after);
  const elsewhere =
    scene.otherModel && causes.every(({ field }) => field === "operation.emergencyMute.connectorId");
  const parts = causes.flatMap(({ field }) => fieldAt(field)?.label.replace("emergency mute ", "") ?? []);
  return {
    drafts: [
      {
        code: "emergency-mute/changed",
        kind: "protection",
        severity: guard === "gained" || elsewhere ? "warning" : "error",
        subject: subjectAt(scene, PLACE),
        words: elsewhere ? "The emergency mute is on another contact of this model." : wordsFor(guard, parts),
        before: settingOf(before),
        after: settingOf(after),
        effects: [{ kind: "protection", guard, guards: "people" }],
        remedy: "Test the emergency mute with whoever is responsible for life safety; local codes decide.",
        causes,
      },
    ],
  };
};

function guardOf(
  before: EmergencyMute | undefined,
  after: EmergencyMute | undefined,
): ProtectionEffect["guard"] {
  const [was, is] = [before?.enabled === true, after?.enabled === true];
  if (was && !is) return "lost";
  return !was && is ? "gained" : "other";
}

function wordsFor(guard: ProtectionEffect["guard"], parts: readonly string[]): string {
  if (guard === "lost") return "The emergency mute no longer acts: an alarm will not silence the auditorium.";
  if (guard === "gained") return "The emergency mute acts now; it did not before.";
  return `The emergency mute is set otherwise (${listed(parts)}): whether an alarm still silences the auditorium is uncertain.`;
}

function settingOf(mute: EmergencyMute | undefined): string {
  if (mute === undefined) return "none";
  const state = mute.enabled ? "in use" : "not in use";
  return `${state}, ${mute.connectorId}, mutes when ${mute.activeWhen}, release ${mute.release}`;
}
