import {
  type AutomationItem,
  type Configuration,
  type FittedItem,
  triggerKey,
} from "../../../model/index.ts";
import { actionByIds, triggerByIds } from "../../../words/index.ts";
import { askFit, FITTING, type FitContext, type FitStage, type FitVerdict } from "./ask.ts";
import { itemWords, withItem, withoutItems } from "./new-parts.ts";

/**
 * One trigger starts one thing. Where what the standard brings waits for a trigger that another item of this screen waits
 * for, somebody decides which of them has it. What waited for one trigger twice before is for 'validate' to find.
 */
export function withOneTriggerEach(context: FitContext, target: Configuration): FitStage {
  let configuration = target;
  const items: FittedItem[] = [];
  const verdicts: FitVerdict[] = [];
  for (;;) {
    const clash = firstClash(context, configuration);
    if (clash === undefined) return { configuration, items, verdicts };
    const { brought, before } = clash;
    const verdict = askFit(context, questionOf(context, clash));
    verdicts.push(verdict);
    const { option, isOpen } = verdict;
    const loser = option.id === "leave-out" ? clash.other : brought;
    configuration =
      option.id === "stay"
        ? withItem(configuration, "automation", { ...brought, trigger: before!.trigger })
        : withoutItems(configuration, "automation", new Set([loser.id]));
    items.push({
      place: `automation/${loser.id}`,
      words: itemWords("automation", loser),
      outcome: isOpen ? "asks" : "left-out",
      text: isOpen
        ? `Waits: ${triggerByIds(brought.trigger)} starts one thing only.`
        : `${option.words} By decision.`,
      numbers: {},
    });
  }
}

interface Clash {
  /** What the standard brought or changed. */
  readonly brought: AutomationItem;
  /** As the screen had it; undefined: it did not. */
  readonly before: AutomationItem | undefined;
  /** What waits for the same trigger. */
  readonly other: AutomationItem;
}

function firstClash({ screen }: FitContext, { automation }: Configuration): Clash | undefined {
  const had = new Map(screen.automation.map((item) => [item.id, item]));
  const isAsBefore = ({ id, trigger }: AutomationItem) => {
    const before = had.get(id);
    return before !== undefined && triggerKey(before.trigger) === triggerKey(trigger);
  };
  for (const brought of automation) {
    if (isAsBefore(brought)) continue;
    const key = triggerKey(brought.trigger);
    const others = automation.filter((item) => item !== brought && triggerKey(item.trigger) === key);
    const other = others.find(isAsBefore) ?? others[0];
    // Of two that the standard brought, the later one is asked about.
    if (other !== undefined && (isAsBefore(other) || automation.indexOf(other) < automation.indexOf(brought)))
      return { brought, before: had.get(brought.id), other };
  }
  return undefined;
}

function questionOf({ screen }: FitContext, { brought, before, other }: Clash) {
  const isOwn = screen.automation.some(({ id }) => id === other.id);
  const both = JSON.stringify(brought.action) === JSON.stringify(other.action);
  const options = [
    {
      id: "leave-out",
      words: `'${brought.label}' has the trigger; '${other.label}' is left out.`,
      consequence: both
        ? "Both do the same, so nothing is missed."
        : `The trigger will ${actionByIds(brought.action)}, and no longer ${actionByIds(other.action)}.`,
    },
    before === undefined
      ? {
          id: "not-added",
          words: `'${other.label}' keeps the trigger; '${brought.label}' is not added.`,
          consequence: `The screen is off the standard in that; the trigger goes on to ${actionByIds(other.action)}.`,
        }
      : {
          id: "stay",
          words: `'${other.label}' keeps the trigger; '${brought.label}' waits for ${triggerByIds(before.trigger)}, as before.`,
          consequence: "The screen is off the standard in that.",
        },
  ];
  return {
    place: `${FITTING}/automation/${brought.id}/trigger`,
    words: itemWords("automation", brought),
    question: `The standard's '${brought.label}' (${actionByIds(brought.action)}) waits for ${triggerByIds(brought.trigger)}. So does ${isOwn ? "this screen's" : "the standard's"} '${other.label}' (${actionByIds(other.action)}). Which of them has it?`,
    options,
    ...(both && { recommended: options[0]!.id }),
  };
}
