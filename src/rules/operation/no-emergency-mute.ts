import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const noEmergencyMute = screenRule({
  code: "operation/no-emergency-mute",
  kind: "protection",
  severity: "error",
  title: "The fire alarm silences the auditorium.",
  why: "A voice alarm that nobody hears over the film costs lives. Local codes and licensed practice decide what is required.",
  source: `${COMMON_PRACTICE}; local codes decide`,
  remedy:
    "Wire the alarm contact, switch the mute on, and test it with whoever is responsible for life safety.",
  example: {
    breaks: [remove("/operation/emergencyMute")],
    mends: [restore("/operation/emergencyMute")],
  },
  *check({ configuration: { operation }, profile }) {
    const { emergencyMute } = operation;
    if (emergencyMute?.enabled === true) return;
    const unitHasNone = profile !== undefined && !profile.operation.emergencyMute;
    yield {
      path: emergencyMute === undefined ? ["operation"] : ["operation", "emergencyMute", "enabled"],
      words:
        emergencyMute === undefined
          ? `There is no emergency mute${unitHasNone ? "; this unit has no contact for one" : ""}.`
          : "The emergency mute is switched off.",
      ...(unitHasNone
        ? {
            remedy:
              "Say how the alarm silences the room without the unit (amplifiers, mains relay), and test it.",
          }
        : {}),
    };
  },
});
