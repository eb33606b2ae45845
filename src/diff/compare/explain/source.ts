import type { Explainer } from "../explainer.ts";
import { byItem, within } from "../select.ts";
import { settingsDraft } from "./settings.ts";

/** Sources: connectors, positions, what they carry. One finding a source. */
export const explainSource: Explainer = (scene, open) => {
  const changes = within(open, "sources[]").filter(({ field }) => field !== "sources[].label");
  return {
    drafts: byItem(changes, 2).map((causes) =>
      settingsDraft(scene, causes, 2, { code: "source/changed", kind: "routing", severity: "warning" }),
    ),
  };
};
