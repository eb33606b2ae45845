import type { Finding } from "../../../base/findings/index.ts";
import { type Configuration, type FittedItem, valueAt } from "../../../model/index.ts";
import { placeAtIds } from "../../../words/index.ts";
import { type NewFaults, newFaultsOf } from "../new-faults.ts";
import { askFit, FITTING, type FitContext, type FitStage, type FitVerdict } from "./ask.ts";
import { changedParts, withPartsKept } from "./house-parts.ts";

export interface Checked extends FitStage {
  /** What the rule book newly finds in the configuration. */
  readonly findings: readonly Finding[];
}

/**
 * What the rule book would newly call an error is never proposed. The parts of the standard that cause it are told with
 * the finding, and asked about: on this screen they can only stay as they are.
 */
export function withoutFaults(context: FitContext, target: Configuration): Checked {
  const { screen, profile } = context;
  if (changedParts(screen, target).length === 0) {
    return { configuration: target, items: [], verdicts: [], findings: [] };
  }
  const faultsOf = newFaultsOf(screen, profile);
  const kept = faultyParts(screen, target, (configuration) => faultsOf(configuration));
  const configuration = withPartsKept(screen, target, kept);
  const verdicts: FitVerdict[] = [];
  const items: FittedItem[] = [];
  for (const part of kept) {
    const others = new Set([...kept].filter((other) => other !== part));
    const { errors } = faultsOf(withPartsKept(screen, target, others));
    const { question, text } = questionOf(context, target, part, errors);
    const verdict = askFit(context, question);
    verdicts.push(verdict);
    items.push({
      place: part,
      words: question.words,
      outcome: verdict.isOpen ? "asks" : "left-out",
      text: verdict.isOpen ? `Waits: ${text}` : `${verdict.option.words} By decision: ${text}`,
      numbers: {},
    });
  }
  return { configuration, items, verdicts, findings: faultsOf(configuration).findings };
}

/** As few parts as can be found without which nothing is newly wrong. */
function faultyParts(
  screen: Configuration,
  target: Configuration,
  faultsOf: (configuration: Configuration) => NewFaults,
): ReadonlySet<string> {
  const parts = changedParts(screen, target);
  const count = (kept: ReadonlySet<string>) => faultsOf(withPartsKept(screen, target, kept)).errors.length;
  let kept: ReadonlySet<string> = new Set<string>();
  for (let errors = count(kept); errors > 0; ) {
    // The last in the signal flow first: a cue rather than the preset that it recalls.
    const tries = parts
      .filter((part) => !kept.has(part))
      .reverse()
      .map((part) => ({ part, left: count(new Set([...kept, part])) }));
    const best = tries.reduce((a, b) => (b.left < a.left ? b : a));
    // Where only several together help, all stay that are not needed elsewhere: see below.
    kept = best.left < errors ? new Set([...kept, best.part]) : new Set(parts);
    errors = count(kept);
  }
  // What one part needs may be another: looked at again until nothing more can change.
  for (let before = -1; before !== kept.size; ) {
    before = kept.size;
    for (const part of parts.filter((each) => kept.has(each))) {
      const without = new Set([...kept].filter((other) => other !== part));
      if (count(without) === 0) kept = without;
    }
  }
  return kept;
}

function questionOf({ screen }: FitContext, target: Configuration, part: string, errors: readonly Finding[]) {
  const path = part.split("/");
  const isThere = valueAt(screen, path) !== undefined;
  const what =
    valueAt(target, path) !== undefined
      ? "what the standard says of it"
      : "the standard does without it, which";
  const words = placeAtIds(isThere ? screen : target, path).words;
  const told = errors.slice(0, MOST_TOLD).map(({ place, words: what }) => `${place.words}: ${what}`);
  const more = errors.length - told.length;
  const text = told.join(" ") + (more > 0 ? ` And ${more} more.` : "");
  return {
    text,
    question: {
      place: `${FITTING}/${part}/fault`,
      words,
      question: `${words}: ${what} cannot be loaded here. ${text}`,
      options: [
        isThere
          ? {
              id: "stay",
              words: "It stays as the screen has it.",
              consequence: "The screen is off the standard in that.",
            }
          : { id: "not-added", words: "It is not added.", consequence: "The screen stays without it." },
      ],
    },
  };
}

const MOST_TOLD = 3;
