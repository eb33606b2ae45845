import type { Explainer } from "../explainer.ts";
import { byItem, within } from "../select.ts";
import { settingsDraft } from "./settings.ts";

/** How the booth works with the unit: fader, preset at start-up, non-sync, paging, monitor and headset feeds. */
export const explainOperation: Explainer = (scene, open) => ({
  drafts: byItem(within(open, "operation"), 2).map((causes) => {
    const part = causes[0]!.path[1]!;
    const feed = part === "hearingImpaired" || part === "narration";
    return settingsDraft(scene, causes, 2, {
      code: `operation/${part.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`,
      kind: feed ? "sound" : "operation",
      severity: part === "boothMonitor" ? "advice" : "warning",
      ...(part === "paging"
        ? { remedy: "Test the paging microphone with whoever is responsible for life safety." }
        : {}),
    });
  }),
});
