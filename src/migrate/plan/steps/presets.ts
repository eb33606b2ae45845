import type { Preset, Question, Route } from "../../../model/index.ts";
import { leaveOut } from "../leave-out.ts";
import { NOT_THIS_UNIT } from "../not-this-unit.ts";
import { presetUse } from "../preset-use.ts";
import { ask, outcomeOf, type Part, type Step, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";

/** Presets: how many, in which slots, with how many crossings. */
export const presets: Step = {
  name: "presets",
  run: (context) => {
    const counted = withinCount(context);
    const routed = withinRouting({ ...context, next: counted.next });
    const slotted = withinSlots({ ...context, next: routed.next });
    return {
      next: slotted.next,
      items: [...counted.items, ...routed.items, ...slotted.items],
      questions: [...counted.questions, ...routed.questions, ...slotted.questions],
    };
  },
};

function withinCount(context: StepContext): Part {
  const { next, to } = context;
  const inOrder = next.presets;
  const ranked = [...inOrder]
    .reverse()
    .map((preset) => ({ preset, ...presetUse(preset, next) }))
    .sort((a, b) => a.weight - b.weight);
  const left = leaveOut(context, {
    questionId: "presets/count",
    place: place("presets", "Presets"),
    things: "presets",
    max: Math.min(to.presets.max, to.presets.slotMax - to.presets.slotMin + 1),
    count: next.presets.length,
    candidates: ranked.map(({ preset, words }) => ({ id: preset.id, label: preset.label, loss: words })),
    reason: "nothing in the booth calls them, or another preset comes nearest to them.",
  });
  return {
    next: { ...next, presets: next.presets.filter(({ id }) => !left.ids.has(id)) },
    items: inOrder
      .filter(({ id }) => left.ids.has(id))
      .map((preset) => ({
        outcome: outcomeOf(left.verdict!, "lost"),
        place: place(`presets/${preset.id}`, `Preset '${preset.label}'`),
        words: `The unit holds fewer presets: '${preset.label}' is left out.`,
        claimsRest: [`presets/${preset.id}`],
        questionId: left.verdict!.question.id,
      })),
    questions: left.verdict === undefined ? [] : [left.verdict.question],
  };
}

/** Crossings in one preset. The quietest are proposed to go. */
function withinRouting(context: StepContext): Part {
  const { next, to, words } = context;
  const parts = next.presets.map((preset) => {
    const quietest = [...preset.routing].sort((a, b) => a.gainDb - b.gainDb || routeOrder(a, b));
    const left = leaveOut(context, {
      questionId: `presets/${preset.id}/routing`,
      place: place(`presets/${preset.id}/routing`, `Preset '${preset.label}', routing`),
      things: "crossings in one preset",
      max: to.presets.routingMax,
      count: preset.routing.length,
      candidates: quietest.map((route) => ({
        id: route.id,
        label: route.id,
        loss: `${words.channel(route.channelId)} loses a feed of ${route.gainDb} dB.`,
      })),
      reason: "they are the quietest.",
    });
    return { preset, left };
  });
  const gone = new Map(parts.map(({ preset, left }) => [preset.id, left.ids]));
  return {
    next: {
      ...next,
      presets: next.presets.map((preset) => ({
        ...preset,
        routing: preset.routing.filter(({ id }) => !gone.get(preset.id)!.has(id)),
      })),
    },
    items: parts.flatMap(({ preset, left }) =>
      left.ids.size === 0
        ? []
        : [
            {
              outcome: outcomeOf(left.verdict!, "lost"),
              place: place(`presets/${preset.id}/routing`, `Preset '${preset.label}', routing`),
              words: `${left.ids.size} crossings are left out.`,
              claimsRest: [...left.ids].map((id) => `presets/${preset.id}/routing/${id}`),
              questionId: left.verdict!.question.id,
            },
          ],
    ),
    questions: parts.flatMap(({ left }) => (left.verdict === undefined ? [] : [left.verdict.question])),
  };
}

function routeOrder(a: Route, b: Route): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** A slot that the new unit has too stays; the others go to the lowest free slots, in their order. */
function withinSlots(context: StepContext): Part {
  const { next, to } = context;
  const inOrder = next.presets;
  const { slotMin, slotMax } = to.presets;
  const fits = ({ slot }: Preset) => slot >= slotMin && slot <= slotMax;
  const taken = new Set(inOrder.filter(fits).map(({ slot }) => slot));
  const slots = new Map<string, number>();
  for (const preset of inOrder) {
    let slot = preset.slot;
    if (!fits(preset)) {
      slot = slotMin;
      while (taken.has(slot)) slot += 1;
      taken.add(slot);
    }
    slots.set(preset.id, slot);
  }
  const moved = inOrder.filter(({ id, slot }) => slots.get(id) !== slot);
  const verdict = moved.length === 0 ? undefined : ask(context, slotQuestion(moved, slots));
  const items = inOrder.flatMap((preset): StepItem[] => {
    const at = `presets/${preset.id}`;
    const slot = slots.get(preset.id)!;
    return [
      {
        outcome: slot === preset.slot ? "kept" : outcomeOf(verdict!, "moved"),
        place: place(`${at}/slot`, `Preset '${preset.label}'`),
        words:
          slot === preset.slot
            ? `It stays in slot ${slot}.`
            : `It moves from slot ${preset.slot} to slot ${slot}.`,
        numbers: { fromSlot: preset.slot, toSlot: slot },
        claims: [`${at}/slot`],
        ...(slot === preset.slot ? {} : { questionId: verdict!.question.id }),
      },
      {
        outcome: "kept",
        place: place(at, `Preset '${preset.label}'`),
        words: "Source and format are kept.",
        claims: [`${at}/id`, `${at}/sourceId`, `${at}/format`, `${at}/reason`],
      },
    ];
  });
  return {
    next: {
      ...next,
      presets: next.presets.map((preset) => ({ ...preset, slot: slots.get(preset.id)! })),
    },
    items,
    questions: verdict === undefined ? [] : [verdict.question],
  };
}

/** Whoever recalls presets by their slots has to know that they moved. */
function slotQuestion(moved: readonly Preset[], slots: ReadonlyMap<string, number>): Question {
  const one = moved.length === 1;
  const each = moved.map(({ id, label, slot }) => `'${label}' from ${slot} to ${slots.get(id)}`).join(", ");
  return {
    id: "presets/slots",
    place: place("presets", "Presets"),
    words: `The new unit does not have the ${one ? "slot of a preset" : `slots of ${moved.length} presets`}. May ${one ? "it" : "they"} move?`,
    options: [
      {
        id: "lowest-free",
        words: `${one ? "It goes" : "They go"} to the lowest free ${one ? "slot" : "slots"}.`,
        consequence: `${each}. Change everything outside the unit that recalls presets by slot.`,
        numbers: { presets: moved.length },
        sets: { slots: moved.map(({ id }) => ({ presetId: id, slot: slots.get(id)! })) },
      },
      NOT_THIS_UNIT,
    ],
    recommended: { optionId: "lowest-free", reason: "the presets themselves stay as they are." },
    unanswered: { optionId: "lowest-free", words: "They go to the lowest free slots." },
  };
}
