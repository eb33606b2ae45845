import type { Explainer } from "../explainer.ts";
import { byItem, within } from "../select.ts";
import { settingsDraft } from "./settings.ts";

/** What is on record of the loudspeakers. Safe limits count as protection: checks lean on them. */
export const explainLoudspeakerData: Explainer = (scene, open) => {
  const changes = within(open, "loudspeakers[]").filter(({ field }) => field !== "loudspeakers[].label");
  return {
    drafts: byItem(changes, 2).map((causes) => {
      const guards = causes.some(({ field }) => field.includes("safeHighPass"));
      return settingsDraft(scene, causes, 2, {
        code: guards ? "loudspeaker/safe-limit" : "loudspeaker/data",
        kind: guards ? "protection" : "record",
        severity: guards ? "warning" : "advice",
        ...(guards ? { remedy: "Compare with the loudspeaker's data sheet." } : {}),
      });
    }),
  };
};
