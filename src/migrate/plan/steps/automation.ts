import type { AutomationItem, PlanPlace, Question } from "../../../model/index.ts";
import { leaveOut } from "../leave-out.ts";
import { askAutomationMarks, convertMark, markItem } from "../operation/fader-marks.ts";
import { terminalItem } from "../operation/terminals.ts";
import { ask, outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/** Automation: what starts what. Terminals were assigned together with the emergency mute. */
export const automation: Step = {
  name: "automation",
  run: (context) => {
    const verdicts = askOnce(context, context.next.automation);
    const marks = askAutomationMarks(
      context,
      context.next.automation.filter((item) => obstacle(context, item) === undefined),
    );
    const parts = context.next.automation.map((item) => carry(context, item, { verdicts, marks }));
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
        ...[...verdicts.values()].map(({ question }) => question),
        ...(marks === undefined ? [] : [marks.question]),
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

function carry(
  context: StepContext,
  item: AutomationItem,
  {
    verdicts,
    marks,
  }: { readonly verdicts: ReadonlyMap<string, Verdict>; readonly marks: Verdict | undefined },
): Carried {
  const at = place(`automation/${item.id}`, `Automation '${item.label}'`);
  const trouble = obstacle(context, item);
  if (trouble !== undefined)
    return settle(context, { item, at, trouble, verdict: verdicts.get(trouble.questionId)! });
  const rest = ["id", "waitMs"].map((name) => `${at.address}/${name}`);
  const trigger = ["kind", "edge", "text", "interfaceId"].map((name) => `${at.address}/trigger/${name}`);
  const action = ["kind", "presetId", "sourceId"].map((name) => `${at.address}/action/${name}`);
  const kept: StepItem = {
    outcome: "kept",
    place: at,
    words: "Trigger and action stay.",
    claims: [...rest, ...trigger, ...action],
  };
  const terminal = "connectorId" in item.trigger ? [terminalItem(context, at, item.trigger.connectorId)] : [];
  if (item.action.kind !== "set-fader") return { id: item.id, at, now: item, items: [kept, ...terminal] };
  const converted = convertMark(context, item.action.faderMark);
  return {
    id: item.id,
    at,
    now: { ...item, action: { ...item.action, faderMark: converted.mark } },
    items: [
      kept,
      ...terminal,
      markItem(place(`${at.address}/action/faderMark`, at.words), item.action.faderMark, converted, marks),
    ],
  };
}

/** What keeps an item from staying as it is; items with the same cause share one question. */
interface Trouble {
  readonly questionId: string;
  readonly words: string;
  /** Presets that could be recalled instead. */
  readonly instead: readonly { readonly id: string; readonly label: string }[];
}

/** Why an item cannot stay as it is. */
function obstacle({ next, to, old }: StepContext, item: AutomationItem): Trouble | undefined {
  const { trigger, action } = item;
  const because = (cause: string, words: string, instead: Trouble["instead"] = []): Trouble => ({
    questionId: `automation/${cause}`,
    words,
    instead,
  });
  if (!to.automation.triggers.includes(trigger.kind)) {
    return because(`triggers/${trigger.kind}`, `the new unit has no ${trigger.kind} trigger`);
  }
  if (!to.automation.actions.includes(action.kind)) {
    return because(`actions/${action.kind}`, `the new unit cannot do '${action.kind}'`);
  }
  if ("connectorId" in trigger && !to.connectors.some(({ id }) => id === trigger.connectorId)) {
    return because(item.id, "no terminal is left for it");
  }
  if ("text" in trigger && trigger.text.length > to.automation.textMax) {
    return because(item.id, `its text is longer than ${to.automation.textMax} characters`);
  }
  if ("interfaceId" in trigger && !next.network.interfaces.some(({ id }) => id === trigger.interfaceId)) {
    return because(`interfaces/${trigger.interfaceId}`, "the network interface is left out");
  }
  if (action.kind === "select-source" && !next.sources.some(({ id }) => id === action.sourceId)) {
    return because(`sources/${action.sourceId}`, "the source is left out");
  }
  if (action.kind === "recall-preset" && !next.presets.some(({ id }) => id === action.presetId)) {
    const gone = old.presets.find(({ id }) => id === action.presetId);
    const like = next.presets.filter(
      ({ format, sourceId }) => format === gone?.format && sourceId === gone.sourceId,
    );
    const words = `the preset '${gone?.label ?? action.presetId}' is left out`;
    return because(`presets/${action.presetId}`, words, like);
  }
  return undefined;
}

/** One question for each cause. */
function askOnce(context: StepContext, items: readonly AutomationItem[]): ReadonlyMap<string, Verdict> {
  const causes = new Map<string, { readonly trouble: Trouble; readonly labels: string[] }>();
  for (const item of items) {
    const trouble = obstacle(context, item);
    if (trouble === undefined) continue;
    const cause = causes.get(trouble.questionId) ?? { trouble, labels: [] };
    cause.labels.push(`'${item.label}' (${item.trigger.kind})`);
    causes.set(trouble.questionId, cause);
  }
  return new Map(
    [...causes].map(([id, { trouble, labels }]) => [id, ask(context, questionOf(trouble, labels))]),
  );
}

function questionOf(trouble: Trouble, labels: readonly string[]): Question {
  const one = labels.length === 1;
  const first = trouble.instead[0];
  return {
    id: trouble.questionId,
    place: place(trouble.questionId, one ? `Automation ${labels[0]}` : "Automation"),
    words: `${one ? "This automation item" : `These ${labels.length} automation items`} cannot stay: ${trouble.words}. What shall be done with ${labels.join(", ")}?`,
    options: [
      ...trouble.instead.map(({ id, label }) => ({
        id: `recall-${id}`,
        words: `${one ? "It recalls" : "They recall"} '${label}' instead.`,
        consequence: "The trigger keeps working; the preset is another one of the same format and source.",
        numbers: { items: labels.length },
        sets: { recallPresetId: id },
      })),
      {
        id: "leave-out",
        words: one ? "It is left out." : "They are left out.",
        consequence: `${one ? "Its trigger does" : "Their triggers do"} nothing any more.`,
        numbers: { items: labels.length },
      },
    ],
    recommended:
      first === undefined
        ? { optionId: "leave-out", reason: "the unit cannot do it." }
        : { optionId: `recall-${first.id}`, reason: "the show keeps running by itself." },
    unanswered: { optionId: "leave-out", words: one ? "It is left out." : "They are left out." },
  };
}

/** What an automation item holds besides its terminal, which the operation step accounts for. */
const OWN_PARTS = [
  "id",
  "waitMs",
  "trigger/kind",
  "trigger/edge",
  "trigger/text",
  "trigger/interfaceId",
  "action",
];

function settle(
  context: StepContext,
  {
    item,
    at,
    trouble,
    verdict,
  }: {
    readonly item: AutomationItem;
    readonly at: PlanPlace;
    readonly trouble: Trouble;
    readonly verdict: Verdict;
  },
): Carried {
  const instead = trouble.instead.find(({ id }) => verdict.option.id === `recall-${id}`);
  const done = instead === undefined ? "It is left out." : `It recalls '${instead.label}' instead.`;
  const words = `It cannot stay: ${trouble.words}. ${done}`;
  const questionId = verdict.question.id;
  if (instead === undefined) {
    const outcome = outcomeOf(verdict, "lost");
    const lost: StepItem = { outcome, place: at, words, claimsRest: [at.address], questionId };
    return { id: item.id, at, now: undefined, items: [lost] };
  }
  const moved: StepItem = {
    outcome: outcomeOf(verdict, "moved"),
    place: at,
    words,
    claims: OWN_PARTS.map((name) => `${at.address}/${name}`),
    questionId,
  };
  const action = { kind: "recall-preset", presetId: instead.id } as const;
  const terminal = "connectorId" in item.trigger ? [terminalItem(context, at, item.trigger.connectorId)] : [];
  return { id: item.id, at, now: { ...item, action }, items: [moved, ...terminal] };
}
