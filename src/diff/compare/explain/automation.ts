import type { Configuration } from "../../../model/index.ts";
import { automationInComparison } from "../../../words/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { type Scene, subjectAt } from "../scene.ts";
import { byItem, within } from "../select.ts";

type Item = Configuration["automation"][number];

/** What triggers what: one finding an automation item. */
export const explainAutomation: Explainer = (scene, open) => ({
  drafts: byItem(
    within(open, "automation[]").filter(({ field }) => field !== "automation[].label"),
    2,
  ).map((causes) => {
    const id = causes[0]!.path[1]!;
    const find = ({ automation }: Configuration): Item | undefined =>
      automation.find((item) => item.id === id);
    const [before, after] = [find(scene.before), find(scene.after)];
    return draftOf(scene, { before, after, causes });
  }),
});

interface ItemChange {
  readonly before: Item | undefined;
  readonly after: Item | undefined;
  readonly causes: Draft["causes"];
}

function draftOf(scene: Scene, { before, after, causes }: ItemChange): Draft {
  const was = before === undefined ? "nothing" : automationInComparison(scene.before, before);
  const is = after === undefined ? "nothing" : automationInComparison(scene.after, after);
  return {
    code:
      before === undefined
        ? "automation/added"
        : after === undefined
          ? "automation/removed"
          : "automation/changed",
    kind: "operation",
    severity: before === undefined ? "advice" : "warning",
    subject: subjectAt(scene, causes[0]!.path.slice(0, 2)),
    words:
      before === undefined
        ? `New: ${is}.`
        : after === undefined
          ? `Gone: ${was}.`
          : `Set otherwise: ${is}; was: ${was}.`,
    before: was,
    after: is,
    causes,
  };
}
