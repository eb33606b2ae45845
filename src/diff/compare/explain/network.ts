import type { Explainer } from "../explainer.ts";
import { byItem, within } from "../select.ts";
import { settingsDraft } from "./settings.ts";

/** Addresses and names by which the unit is reached: one finding an interface. */
export const explainNetwork: Explainer = (scene, open) => {
  const changes = within(open, "network").filter(({ field }) => field !== "network.interfaces[].label");
  return {
    drafts: byItem(changes, 3).map((causes) =>
      settingsDraft(scene, causes, 3, {
        code: "network/changed",
        kind: "operation",
        severity: "warning",
        remedy: "Tell whoever controls the unit over the network.",
      }),
    ),
  };
};
