import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const emergencyContactShared = screenRule({
  code: "operation/emergency-contact-shared",
  kind: "protection",
  severity: "error",
  title: "The emergency mute has its contact to itself.",
  why: "A cue on the same contact acts in an alarm, and may end the mute.",
  source: COMMON_PRACTICE,
  remedy: "Move the cue to another contact.",
  example: {
    breaks: [set("/automation/cue-music/trigger/connectorId", "contact-1")],
    mends: [set("/automation/cue-music/trigger/connectorId", "contact-2")],
  },
  *check({ configuration: { operation, automation } }) {
    const contact = operation.emergencyMute?.connectorId;
    for (const [index, { trigger }] of automation.entries()) {
      if (trigger.kind !== "contact" || trigger.connectorId !== contact) continue;
      yield {
        path: ["automation", index, "trigger", "connectorId"],
        words: "The cue uses the contact of the emergency mute.",
        numbers: { connectorId: trigger.connectorId },
      };
    }
  },
});
