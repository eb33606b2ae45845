import { remove, restore } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const muteWithoutEnd = screenRule({
  code: "operation/mute-without-end",
  kind: "operation",
  severity: "warning",
  title: "A cue that mutes has one that ends the mute.",
  why: "A show that is muted by automation and not unmuted stays silent until someone runs to the booth.",
  source: COMMON_PRACTICE,
  remedy: "Add a cue that ends the mute.",
  example: {
    breaks: [remove("/automation/cue-unmute")],
    mends: [restore("/automation/cue-unmute")],
  },
  *check({ configuration: { automation } }) {
    if (automation.some(({ action }) => action.kind === "unmute")) return;
    const index = automation.findIndex(({ action }) => action.kind === "mute");
    if (index < 0) return;
    yield { path: ["automation", index, "action"], words: "The cue mutes, and no cue ends the mute." };
  },
});
