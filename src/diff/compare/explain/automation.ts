import type { Action, Configuration, Trigger } from "../../../model/index.ts";
import { printMs } from "../../../words/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { quoted } from "../phrases.ts";
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
  const was = before === undefined ? "nothing" : itemWords(scene.before, before);
  const is = after === undefined ? "nothing" : itemWords(scene.after, after);
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

function itemWords(configuration: Configuration, { trigger, action, waitMs }: Item): string {
  const wait = waitMs === undefined || waitMs === 0 ? "" : ` after ${printMs(waitMs, 0)}`;
  return `${triggerWords(configuration, trigger)}: ${actionWords(configuration, action)}${wait}`;
}

function triggerWords({ network }: Configuration, trigger: Trigger): string {
  switch (trigger.kind) {
    case "contact":
      return `contact ${trigger.connectorId} ${trigger.edge}`;
    case "serial":
      return `serial text ${quoted(trigger.text)} on ${trigger.connectorId}`;
    case "network": {
      const name = network.interfaces.find(({ id }) => id === trigger.interfaceId)?.label;
      return `network text ${quoted(trigger.text)} on ${name ?? trigger.interfaceId}`;
    }
  }
}

function actionWords({ presets, sources }: Configuration, action: Action): string {
  switch (action.kind) {
    case "recall-preset":
      return `recall preset ${quoted(presets.find(({ id }) => id === action.presetId)?.label ?? action.presetId)}`;
    case "set-fader":
      return `set the fader to ${action.faderMark}`;
    case "select-source":
      return `select source ${quoted(sources.find(({ id }) => id === action.sourceId)?.label ?? action.sourceId)}`;
    default:
      return action.kind;
  }
}
