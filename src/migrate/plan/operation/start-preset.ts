import type { Preset, Question } from "../../../model/index.ts";
import { ask, outcomeOf, type Part, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";
import { withoutMember } from "./without-member.ts";

/** The preset at start-up. Where it is left out, somebody says with which one the unit starts instead. */
export function carryStartPreset(context: StepContext): Part {
  const { next, old } = context;
  const { startPresetId } = next.operation;
  if (startPresetId === undefined) return { next, items: [], questions: [] };
  const at = place("operation/startPresetId", "Preset at start-up");
  const claims = [at.address];
  if (next.presets.some(({ id }) => id === startPresetId)) {
    const words = "The unit starts with the same preset.";
    return { next, items: [{ outcome: "kept", place: at, words, claims }], questions: [] };
  }
  const gone = old.presets.find(({ id }) => id === startPresetId);
  const verdict = ask(context, startQuestion(gone, next.presets));
  const now = next.presets.find(({ id }) => id === verdict.option.sets?.startPresetId);
  const item: StepItem = {
    outcome: outcomeOf(verdict, now === undefined ? "lost" : "moved"),
    place: at,
    words: `The preset at start-up is left out. ${verdict.option.words}`,
    claims,
    questionId: verdict.question.id,
  };
  const operation = withoutMember(next.operation, "startPresetId");
  return {
    next: {
      ...next,
      operation: now === undefined ? operation : { ...operation, startPresetId: now.id },
    },
    items: [item],
    questions: [verdict.question],
  };
}

/** Presets of the same source and format come first. */
function startQuestion(gone: Preset | undefined, presets: readonly Preset[]): Question {
  const likeness = ({ sourceId, format }: Preset) =>
    (sourceId === gone?.sourceId ? 2 : 0) + (format === gone?.format ? 1 : 0);
  const ranked = presets.toSorted((a, b) => likeness(b) - likeness(a));
  const [first] = ranked;
  const isLike = first !== undefined && likeness(first) === 3;
  return {
    id: "operation/startPresetId",
    place: place("operation/startPresetId", "Preset at start-up"),
    words: `The unit started with '${gone?.label ?? ""}', which is left out. With which preset does it start?`,
    options: [
      ...ranked.map(({ id, label, format }) => ({
        id: `start-${id}`,
        words: `It starts with '${label}'.`,
        consequence: `After power comes back '${label}' (${format}) is recalled.`,
        numbers: {},
        sets: { startPresetId: id },
      })),
      {
        id: "none",
        words: "It starts with none in particular.",
        consequence: "The unit starts as its maker decided.",
        numbers: {},
        sets: { startPresetId: null },
      },
    ],
    ...(isLike && {
      recommended: { optionId: `start-${first.id}`, reason: "it has the same source and format." },
    }),
    unanswered: { optionId: "none", words: "Nothing is set." },
  };
}
