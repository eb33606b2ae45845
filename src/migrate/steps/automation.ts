import type { AutomationItem, PlanPlace, Question } from "../../model/index.ts";
import { leaveOut } from "../leave-out.ts";
import { automationOrder, presetOrder } from "../order.ts";
import { ask, outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";
import { convertMark, markItem } from "./operation.ts";

/** Automation: what starts what. Terminals were assigned together with the emergency mute. */
export const automation: Step = {
  name: "automation",
  run: (context) => {
    const inOrder = [...context.next.automation].sort(automationOrder(context.to));
    const parts = inOrder.map((item) => carry(context, item));
    const alive = parts.filter(({ now }) => now !== undefined).map(({ now }) => now!);
    const left = leaveOut(context, {
      questionId: "automation/count",
      place: place("automation", "Automation"),
      things: "automation items",
      max: context.to.automation.max,
      count: alive.length,
      candidates: [...alive].reverse().map((item) => ({
        id: item.id,
        label: item.label,
        loss: "its trigger does nothing any more.",
      })),
      reason: "they come last along the terminals.",
    });
    const now = new Map(alive.filter(({ id }) => !left.ids.has(id)).map((item) => [item.id, item]));
    return {
      next: {
        ...context.next,
        automation: context.next.automation.flatMap(({ id }) => now.get(id) ?? []),
      },
      items: parts.flatMap((part) =>
        left.ids.has(part.id) ? [tooMany(part.at, left.verdict!)] : part.items,
      ),
      questions: [
        ...parts.flatMap((part) => (left.ids.has(part.id) ? [] : part.questions)),
        ...(left.verdict === undefined ? [] : [left.verdict.question]),
      ],
    };
  },
};

interface Carried {
  readonly id: string;
  readonly at: PlanPlace;
  /** Undefined: left out. */
  readonly now: AutomationItem | undefined;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

function tooMany(at: PlanPlace, verdict: Verdict): StepItem {
  return {
    outcome: outcomeOf(verdict, "lost"),
    place: at,
    words: `The unit holds fewer automation items: ${at.words} is left out.`,
    claimsRest: [at.address],
    questionId: verdict.question.id,
  };
}

function carry(context: StepContext, item: AutomationItem): Carried {
  const at = place(`automation/${item.id}`, `Automation '${item.label}'`);
  const trouble = obstacle(context, item);
  if (trouble !== undefined) return askAbout(context, item, at, trouble);
  const rest = ["id", "waitMs"].map((name) => `${at.address}/${name}`);
  const trigger = ["kind", "edge", "text", "interfaceId"].map((name) => `${at.address}/trigger/${name}`);
  const action = ["kind", "presetId", "sourceId"].map((name) => `${at.address}/action/${name}`);
  const kept: StepItem = {
    outcome: "kept",
    place: at,
    words: "Trigger and action stay.",
    claims: [...rest, ...trigger, ...action],
  };
  if (item.action.kind !== "set-fader") return { id: item.id, at, now: item, items: [kept], questions: [] };
  const converted = convertMark(context, item.action.faderMark);
  return {
    id: item.id,
    at,
    now: { ...item, action: { ...item.action, faderMark: converted.mark } },
    items: [
      kept,
      markItem(place(`${at.address}/action/faderMark`, at.words), item.action.faderMark, converted),
    ],
    questions: [],
  };
}

interface Trouble {
  readonly words: string;
  /** Presets that could be recalled instead. */
  readonly instead: readonly { readonly id: string; readonly label: string }[];
}

/** Why an item cannot stay as it is. */
function obstacle({ next, to, old }: StepContext, item: AutomationItem): Trouble | undefined {
  const { trigger, action } = item;
  const none: Trouble["instead"] = [];
  if (!to.automation.triggers.includes(trigger.kind))
    return { words: `the new unit has no ${trigger.kind} trigger`, instead: none };
  if (!to.automation.actions.includes(action.kind))
    return { words: `the new unit cannot do '${action.kind}'`, instead: none };
  if ("connectorId" in trigger && !to.connectors.some(({ id }) => id === trigger.connectorId))
    return { words: "no terminal is left for it", instead: none };
  if ("text" in trigger && trigger.text.length > to.automation.textMax)
    return { words: `its text is longer than ${to.automation.textMax} characters`, instead: none };
  if ("interfaceId" in trigger && !next.network.interfaces.some(({ id }) => id === trigger.interfaceId))
    return { words: "its network interface is left out", instead: none };
  if (action.kind === "select-source" && !next.sources.some(({ id }) => id === action.sourceId))
    return { words: "its source is left out", instead: none };
  if (action.kind === "recall-preset" && !next.presets.some(({ id }) => id === action.presetId)) {
    const gone = old.presets.find(({ id }) => id === action.presetId);
    const like = [...next.presets]
      .sort(presetOrder)
      .filter(({ format, sourceId }) => format === gone?.format && sourceId === gone.sourceId);
    return { words: `its preset '${gone?.label ?? action.presetId}' is left out`, instead: like };
  }
  return undefined;
}

function askAbout(context: StepContext, item: AutomationItem, at: PlanPlace, trouble: Trouble): Carried {
  const first = trouble.instead[0];
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: `${at.words} cannot stay: ${trouble.words}. What shall be done?`,
    options: [
      ...trouble.instead.map(({ id, label }) => ({
        id: `recall-${id}`,
        words: `It recalls '${label}' instead.`,
        consequence: "The trigger keeps working; the preset is another one of the same format and source.",
        numbers: {},
      })),
      {
        id: "leave-out",
        words: "It is left out.",
        consequence: "Its trigger does nothing any more.",
        numbers: {},
      },
    ],
    recommended:
      first === undefined
        ? { optionId: "leave-out", reason: "the unit cannot do it." }
        : { optionId: `recall-${first.id}`, reason: "the show keeps running by itself." },
    unanswered: { optionId: "leave-out", words: "It is left out." },
  });
  const instead = trouble.instead.find(({ id }) => verdict.option.id === `recall-${id}`);
  const words = `${at.words}: ${trouble.words}. ${verdict.option.words}`;
  if (instead === undefined || item.action.kind !== "recall-preset") {
    const lost: StepItem = {
      outcome: outcomeOf(verdict, "lost"),
      place: at,
      words,
      claimsRest: [at.address],
      questionId: verdict.question.id,
    };
    return { id: item.id, at, now: undefined, items: [lost], questions: [verdict.question] };
  }
  const moved: StepItem = {
    outcome: outcomeOf(verdict, "moved"),
    place: at,
    words,
    claims: [
      "id",
      "waitMs",
      "trigger/kind",
      "trigger/edge",
      "trigger/text",
      "trigger/interfaceId",
      "action",
    ].map((name) => `${at.address}/${name}`),
    questionId: verdict.question.id,
  };
  return {
    id: item.id,
    at,
    now: { ...item, action: { kind: "recall-preset", presetId: instead.id } },
    items: [moved],
    questions: [verdict.question],
  };
}
