import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const automationNotOffered = screenRule({
  code: "unit/automation-not-offered",
  kind: "operation",
  severity: "error",
  title: "Triggers and actions are ones that the unit knows.",
  why: "A cue that the unit does not understand does nothing, in the middle of a show.",
  source: "the unit's profile",
  remedy: "Use another trigger or action, or a shorter text.",
  needsProfile: true,
  example: {
    breaks: [set("/automation/cue-fader/trigger/text", "SET THE HOUSE LEVEL NOW PLEASE")],
    mends: [set("/automation/cue-fader/trigger/text", "LEVEL HOUSE")],
  },
  *check({ configuration, profile }) {
    const { triggers, actions, textMax } = profile!.automation;
    for (const [i, { trigger, action }] of configuration.automation.entries()) {
      if (!triggers.includes(trigger.kind)) {
        yield {
          path: ["automation", i, "trigger"],
          words: `The unit takes no ${trigger.kind} triggers.`,
          numbers: { trigger: trigger.kind },
        };
      } else if (trigger.kind !== "contact" && trigger.text.length > textMax) {
        yield {
          path: ["automation", i, "trigger", "text"],
          words: `The text has ${trigger.text.length} characters; the unit takes ${textMax}.`,
          numbers: { length: trigger.text.length, max: textMax },
        };
      }
      if (!actions.includes(action.kind)) {
        yield {
          path: ["automation", i, "action"],
          words: `The unit has no action ${action.kind}.`,
          numbers: { action: action.kind },
        };
      }
    }
  },
});
