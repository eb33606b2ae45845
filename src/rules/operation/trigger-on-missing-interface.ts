import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const triggerOnMissingInterface = screenRule({
  code: "operation/trigger-on-missing-interface",
  kind: "operation",
  severity: "error",
  title: "Network cues arrive at an interface that is there, for control.",
  why: "A cue that is sent to the audio network, or to nowhere, never arrives.",
  source: COMMON_PRACTICE,
  remedy: "Choose the control interface.",
  example: {
    breaks: [set("/automation/cue-feature/trigger/interfaceId", "audio")],
    mends: [set("/automation/cue-feature/trigger/interfaceId", "control")],
  },
  *check({ configuration: { automation, network } }) {
    for (const [index, { trigger }] of automation.entries()) {
      if (trigger.kind !== "network") continue;
      const found = network.interfaces.find(({ id }) => id === trigger.interfaceId);
      if (found?.purpose === "control") continue;
      yield {
        path: ["automation", index, "trigger", "interfaceId"],
        words:
          found === undefined
            ? `There is no network interface '${trigger.interfaceId}'.`
            : `${found.label} is the interface for audio, not for control.`,
        numbers: { interfaceId: trigger.interfaceId },
      };
    }
  },
});
