import { restore, set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const cueSelectsMissingSource = screenRule({
  code: "operation/cue-selects-missing-source",
  kind: "operation",
  severity: "error",
  title: "Automation selects sources that exist.",
  why: "At the cue nothing happens, and the show goes on with the wrong source.",
  source: COMMON_PRACTICE,
  remedy: "Choose the source that the cue is for.",
  example: {
    breaks: [set("/automation/cue-fader/action", { kind: "select-source", sourceId: "tape" })],
    mends: [restore("/automation/cue-fader/action")],
  },
  *check({ configuration, sources }) {
    for (const [index, { action }] of configuration.automation.entries()) {
      if (action.kind !== "select-source" || sources.has(action.sourceId)) continue;
      yield {
        path: ["automation", index, "action", "sourceId"],
        words: `The cue selects '${action.sourceId}', which does not exist.`,
        numbers: { sourceId: action.sourceId },
      };
    }
  },
});
