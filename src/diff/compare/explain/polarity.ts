import { crossingEffects } from "../crossing.ts";
import type { Explainer } from "../explainer.ts";
import { loudspeakerFed, subjectAt } from "../scene.ts";
import { at } from "../select.ts";

/** Outputs whose polarity was turned over. */
export const explainPolarity: Explainer = (scene, open) => ({
  drafts: at(open, "outputs[].polarity").map((change) => {
    const after = change.kind === "removed" ? "normal" : String(change.after);
    const effects = crossingEffects(scene, loudspeakerFed(scene, change.path[1]!));
    return {
      code: "polarity/turned",
      kind: "sound",
      severity: "warning",
      subject: subjectAt(scene, change.path.slice(0, 2)),
      alike: after,
      words: `Polarity turned over: now ${after}.`,
      before: after === "normal" ? "inverted" : "normal",
      after,
      effects,
      remedy: "Check the polarity of every way with a polarity tester or by measuring the crossover.",
      causes: [change],
    };
  }),
});
