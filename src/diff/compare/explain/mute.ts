import type { Explainer } from "../explainer.ts";
import { subjectAt } from "../scene.ts";
import { at } from "../select.ts";

/** Program channels and outputs that are silent, or are no longer. */
export const explainMute: Explainer = (scene, open) => ({
  drafts: at(open, "channels[].mute", "outputs[].mute").map((change) => {
    const muted = change.kind !== "removed" && change.after === true;
    const subject = subjectAt(scene, change.path.slice(0, 2));
    return {
      code: muted ? "mute/silenced" : "mute/released",
      kind: "sound",
      severity: "warning",
      subject,
      alike: `${change.field} ${muted}`,
      words: muted ? "Muted: falls silent." : "No longer muted.",
      before: muted ? "not muted" : "muted",
      after: muted ? "muted" : "not muted",
      effects: [
        {
          kind: "reach",
          silent: muted ? [subject.words] : [],
          added: muted ? [] : [subject.words],
          doubled: [],
        },
      ],
      causes: [change],
    };
  }),
});
