import {
  type ProposedStep,
  printValue,
  type StandardAnswer,
  type StandardDecisions,
} from "../model/index.ts";

/** What one screen asks. */
export interface AskingScreen {
  readonly screen: { readonly siteId: string; readonly screenId: string };
  readonly steps: readonly ProposedStep[];
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
  const asked = new Map<string, { readonly step: ProposedStep; readonly screens: string[] }>();
  for (const { screen, steps } of screens) {
    for (const step of steps.filter(({ outcome }) => outcome === "asks")) {
      const name = `${screen.siteId}/${screen.screenId}`;
      const known = asked.get(step.place);
      if (known === undefined) asked.set(step.place, { step, screens: [name] });
      else known.screens.push(name);
    }
  }
  const open = [...asked].map(
    ([place, { step, screens: names }]): StandardAnswer => ({
      place,
      choose: null,
      question: questionWords(step, names),
      choices: choicesOf(step, names.length),
    }),
  );
  const given = (earlier?.answers ?? []).filter(({ choose }) => choose !== null);
  return {
    kind: "boothkeep.standard-decisions",
    schemaVersion: "1.0.0",
    standardId: standard.id,
    toVersion: standard.version,
    answers: [...given, ...open],
  };
}

const MOST_NAMED = 6;

function questionWords({ words, label, why }: ProposedStep, names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  const list = names.slice(0, MOST_NAMED).join(", ") + (more > 0 ? ` and ${more} more` : "");
  return `${words}, ${label}: ${why} Asked by ${list}.`;
}

function choicesOf(step: ProposedStep, screens: number): readonly string[] {
  const own = screens === 1 ? `screen: ${valueWords(step, step.screen)}` : "screen: each as it has it";
  const house = `standard: ${valueWords(step, step.standard)}`;
  return step.nearest === undefined
    ? [house, own]
    : [`nearest: ${valueWords(step, step.nearest)}, in place of ${valueWords(step, step.standard)}`, own];
}

/** A side of a step in words. */
export function valueWords(step: ProposedStep, value: unknown): string {
  if (value === null || value === undefined) return "nothing there";
  return typeof value === "object" ? "there" : printValue(step.field, value);
}
