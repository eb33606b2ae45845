import { fitsStarsByPart } from "../../../base/text/index.ts";
import type { Question, QuestionOption } from "../../../model/index.ts";
import type { Block, Item } from "../../document.ts";

/** Words and consequence of an option that are told at most; the decisions file holds all of them. */
const WORDS_MAX = 200;

/**
 * Open questions for a terminal: first those on which the plan recommends nothing, then those with a proposal. Questions
 * that differ in nothing but their place are told once.
 */
export function openQuestions(questions: readonly Question[]): readonly Block[] {
  const open = questions.filter(({ answer }) => answer === undefined);
  const bare = open.filter(({ recommended }) => recommended === undefined);
  const proposed = open.filter(({ recommended }) => recommended !== undefined);
  return [
    ...listed("Somebody has to decide", bare, questions),
    ...listed("To be decided, with a proposal", proposed, questions),
  ];
}

function listed(heading: string, open: readonly Question[], all: readonly Question[]): readonly Block[] {
  if (open.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: heading },
    { kind: "list", marker: "dot", items: alike(open).map((group) => questionItem(group, all)) },
  ];
}

/** Questions with the same words and the same options. */
function alike(questions: readonly Question[]): readonly (readonly Question[])[] {
  const groups = new Map<string, Question[]>();
  for (const question of questions) {
    const key = JSON.stringify([
      lastPart(question.id),
      question.words,
      question.options.map(({ id, words }) => [id, words]),
    ]);
    groups.set(key, [...(groups.get(key) ?? []), question]);
  }
  return [...groups.values()];
}

function lastPart(id: string): string {
  return id.split("/").at(-1) ?? id;
}

function questionItem(group: readonly Question[], all: readonly Question[]): Item {
  const { id, words, options, recommended, unanswered } = group[0]!;
  const proposed = options.find((option) => option.id === recommended?.optionId);
  const star = starFor(group, all);
  return {
    lead:
      group.length === 1 ? id : `${group.length} alike: ${group.map((question) => question.id).join(", ")}`,
    text: words,
    notes: [
      ...(star === undefined ? [] : [`One answer to '${star}' serves all of them.`]),
      ...(proposed === undefined || recommended === undefined
        ? options.map((option) => `${choiceWords(option)}: ${cut(option.consequence)}`)
        : [
            `Proposed: ${proposed.id}: ${cut(proposed.words)} Because ${recommended.reason}`,
            `Consequence: ${cut(proposed.consequence)}`,
          ]),
      `Until then: ${unanswered.words}`,
    ],
  };
}

function choiceWords({ id, weakensProtection }: QuestionOption): string {
  return weakensProtection === true ? `${id} (protects less)` : id;
}

/** A pattern that stands for just these questions. */
function starFor(group: readonly Question[], all: readonly Question[]): string | undefined {
  if (group.length < 2) return undefined;
  const [first, ...others] = group.map(({ id }) => id.split("/"));
  const star = first!
    .map((part, index) => (others.every((parts) => parts[index] === part) ? part : "*"))
    .join("/");
  return all.filter(({ id }) => fitsStarsByPart(star, id)).length === group.length ? star : undefined;
}

function cut(text: string): string {
  return text.length <= WORDS_MAX ? text : `${text.slice(0, WORDS_MAX).trimEnd()} …`;
}
