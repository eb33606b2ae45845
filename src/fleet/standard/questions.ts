import type { FittingQuestion, ProposedStep, StandardAnswer, StandardDecisions } from "../../model/index.ts";
import { firstOf, printValue } from "../../words/index.ts";

/** What one screen asks. */
export interface AskingScreen {
  readonly screen: { readonly siteId: string; readonly screenId: string };
  readonly steps: readonly ProposedStep[];
  readonly questions: readonly FittingQuestion[];
}

/**
 * A decisions file to fill in: one answer for each place that any screen asks about, with both sides in words. Answers
 * that were given stay, before the open ones.
 *
 * @example
 * openQuestions(proposals, standard).answers.filter(({ choose }) => choose === null); // what is still open
 */
export function openQuestions(
  screens: readonly AskingScreen[],
  standard: { readonly id: string; readonly version: string },
  earlier?: StandardDecisions,
): StandardDecisions {
  const nameOf = ({ screen }: AskingScreen) => `${screen.siteId}/${screen.screenId}`;
  const steps = gathered(screens, nameOf, (screen) =>
    screen.steps.filter(({ outcome }) => outcome === "asks"),
  );
  const fitting = gathered(screens, nameOf, (screen) =>
    screen.questions.filter(({ chosen }) => chosen === null),
  );
  const open: readonly StandardAnswer[] = [
    ...steps.map(({ asked, names }) => ({
      place: asked.place,
      choose: null,
      question: questionWords(asked, names),
      choices: choicesOf(asked, names.length),
    })),
    ...fitting.map(({ asked, names }) => ({
      place: asked.place,
      choose: null,
      question: `${asked.question}${asked.unfit === undefined ? "" : ` ${asked.unfit}`} Asked by ${firstOf(names, MOST_NAMED)}.${names.length > 1 ? " The choices are told as on the first; the others find their own." : ""}`,
      choices: asked.options.map((option) => optionWords(option, asked)),
    })),
  ];
  const given = (earlier?.answers ?? []).filter(({ choose }) => choose !== null);
  return {
    kind: "boothkeep.standard-decisions",
    schemaVersion: "1.0.0",
    standardId: standard.id,
    toVersion: standard.version,
    answers: [...given, ...open],
  };
}

/** What screens ask, by its place, with the names of those that ask. */
function gathered<Asked extends { readonly place: string }>(
  screens: readonly AskingScreen[],
  nameOf: (screen: AskingScreen) => string,
  askedBy: (screen: AskingScreen) => readonly Asked[],
): readonly { readonly asked: Asked; readonly names: readonly string[] }[] {
  const found = new Map<string, { readonly asked: Asked; readonly names: string[] }>();
  for (const screen of screens) {
    for (const asked of askedBy(screen)) {
      const known = found.get(asked.place);
      if (known === undefined) found.set(asked.place, { asked, names: [nameOf(screen)] });
      else known.names.push(nameOf(screen));
    }
  }
  return [...found.values()];
}

const MOST_NAMED = 6;

function questionWords({ words, label, why }: ProposedStep, names: readonly string[]): string {
  return `${words}, ${label}: ${why} Asked by ${firstOf(names, MOST_NAMED)}.`;
}

/** An option in words. */
function optionWords(
  { id, words, consequence, candidates, idsCount, weakensProtection }: FittingQuestion["options"][number],
  { recommended }: FittingQuestion,
): string {
  const marks = [
    ...(recommended === id ? ["loses least"] : []),
    ...(weakensProtection === true ? ['needs "accepts": "weaker-protection"'] : []),
    ...(idsCount === undefined ? [] : [`needs "ids" with ${idsCount} of ${(candidates ?? []).join(", ")}`]),
  ];
  return `${id}: ${words} ${consequence}${marks.length === 0 ? "" : ` (${marks.join("; ")})`}`;
}

function choicesOf(step: ProposedStep, screens: number): readonly string[] {
  const own = screens === 1 ? `screen: ${valueWords(step, step.screen)}` : "screen: each as it has it";
  const house = `standard: ${valueWords(step, step.standard)}${limitWords(step)}`;
  if (step.nearest === undefined) return [house, own];
  const nearest = `nearest: ${valueWords(step, step.nearest)}, in place of ${valueWords(step, step.standard)}`;
  // Of a new item the screen has nothing to keep.
  return step.screen === null ? [nearest] : [nearest, own];
}

/** Of a value that is held within limits, the limits. */
function limitWords(step: ProposedStep): string {
  if (step.hold !== "within") return "";
  return ` (within ${valueWords(step, step.min)} and ${valueWords(step, step.max)})`;
}

/** A side of a step in words. */
export function valueWords(step: ProposedStep, value: unknown): string {
  if (value === null || value === undefined) return "nothing there";
  return typeof value === "object" ? "there" : printValue(step.field, value);
}
