import type { Configuration, PlanPlace } from "../../../model/index.ts";
import { NOT_THIS_UNIT, UNDECIDED } from "../not-this-unit.ts";
import { ask, outcomeOf, type Part, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";
import { withoutMember } from "./without-member.ts";

/** Music and paging need their source and preset; paging needs the ability too. */
export function carryUse(context: StepContext, key: "nonSync" | "paging", words: string): Part {
  const { next, to } = context;
  const value = next.operation[key];
  if (value === undefined) return { next, items: [], questions: [] };
  const at = place(`operation/${key}`, words);
  const there =
    next.presets.some(({ id }) => id === value.presetId) &&
    next.sources.some(({ id }) => id === value.sourceId);
  if (there && (key === "nonSync" || to.operation.paging)) {
    const item: StepItem = {
      outcome: "kept",
      place: at,
      words: `${words}: as before.`,
      claims: [at.address],
    };
    return { next, items: [item], questions: [] };
  }
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: there
      ? `The new unit has no function for ${words.toLowerCase()}. Is that accepted?`
      : `The source or preset of '${words}' is left out. Is that accepted?`,
    options: [
      {
        id: "leave-out",
        words: `${words} is left out.`,
        consequence:
          key === "paging"
            ? "Announcements need other equipment; if they are part of the evacuation, local codes decide."
            : "There is no music between shows from this unit.",
        numbers: {},
        ...(key === "paging" ? { weakensProtection: true } : {}),
      },
      NOT_THIS_UNIT,
    ],
    unanswered: UNDECIDED,
  });
  return lostPart(next, key, at, verdict);
}

/** Booth monitor, hearing-impaired and narration feed: they need their output. */
export function carryFeed(
  context: StepContext,
  key: "boothMonitor" | "hearingImpaired" | "narration",
  words: string,
): Part {
  const { next, to } = context;
  const value = next.operation[key];
  if (value === undefined) return { next, items: [], questions: [] };
  const at = place(`operation/${key}`, words);
  const hasOutput = next.outputs.some(({ id }) => id === value.outputId);
  if (hasOutput && to.operation[key]) {
    const item: StepItem = {
      outcome: "kept",
      place: at,
      words: `${words}: as before.`,
      claims: [at.address],
    };
    return { next, items: [item], questions: [] };
  }
  if (!hasOutput) {
    const item: StepItem = {
      outcome: "lost",
      place: at,
      words: `${words}: its output is left out, and its settings with it.`,
      claims: [at.address],
    };
    return {
      next: { ...next, operation: withoutMember(next.operation, key) },
      items: [item],
      questions: [],
    };
  }
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: `The new unit has no function of its own for: ${words}. What becomes of it?`,
    options: [
      {
        id: "plain-output",
        words: "Its output stays as an ordinary output.",
        consequence: "The feed plays; its own level and rules are lost.",
        numbers: { levelDb: value.levelDb },
      },
    ],
    recommended: { optionId: "plain-output", reason: "the feed keeps playing." },
    unanswered: { optionId: "plain-output", words: "The output stays as an ordinary output." },
  });
  return lostPart(next, key, at, verdict);
}

function lostPart(
  next: Configuration,
  key: "nonSync" | "paging" | "boothMonitor" | "hearingImpaired" | "narration",
  at: PlanPlace,
  verdict: Verdict,
): Part {
  const item: StepItem = {
    outcome: outcomeOf(verdict, "lost"),
    place: at,
    words: verdict.option.words,
    claims: [at.address],
    questionId: verdict.question.id,
  };
  return {
    next: { ...next, operation: withoutMember(next.operation, key) },
    items: [item],
    questions: [verdict.question],
  };
}
