import { triggerKey } from "../../model/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const triggerTwice = screenRule({
  code: "operation/trigger-twice",
  kind: "operation",
  severity: "error",
  title: "One trigger starts one thing.",
  why: "Two cues on one contact or one text: both act, in an order that nobody chose.",
  source: COMMON_PRACTICE,
  remedy: "Give one of them another trigger.",
  example: {
    breaks: [set("/automation/cue-trailers/trigger/text", "PRESET 2")],
    mends: [set("/automation/cue-trailers/trigger/text", "PRESET 4")],
  },
  *check({ configuration }) {
    const seen = new Map<string, string>();
    for (const [index, { trigger, label }] of configuration.automation.entries()) {
      const key = triggerKey(trigger);
      const other = seen.get(key);
      if (other !== undefined) {
        yield {
          path: ["automation", index, "trigger"],
          words: `The trigger starts '${other}' already.`,
          numbers: { other },
        };
      } else seen.set(key, label);
    }
  },
});
