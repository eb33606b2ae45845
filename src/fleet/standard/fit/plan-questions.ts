import type { Decisions, FittingQuestion, Question } from "../../../model/index.ts";
import { FITTING, type FitVerdict } from "./ask.ts";

/** A question of the plan, as it is put of one unit that stays where it is. */
export function inHouse({
  id,
  place,
  words,
  options,
  recommended,
}: Question): Omit<FittingQuestion, "chosen"> {
  return {
    place: `${FITTING}/${id}`,
    words: place.words,
    question: ofThisUnit(words),
    options: options.map((option) => ({
      id: option.id === REFUSES ? "not-added" : option.id,
      words: option.id === REFUSES ? "It is not added." : ofThisUnit(option.words),
      consequence:
        option.id === REFUSES ? "What uses it is asked about next." : ofThisUnit(option.consequence),
      ...(option.candidates !== undefined && { candidates: option.candidates }),
      ...(option.idsCount !== undefined && { idsCount: option.idsCount }),
      ...(option.weakensProtection === true && { weakensProtection: true }),
    })),
    ...(recommended !== undefined && { recommended: recommended.optionId }),
  };
}

/** The option by which a plan says that something cannot be given up. */
const REFUSES = "not-this-unit";

/** Words of a plan, of one unit that stays where it is. */
export function ofThisUnit(words: string): string {
  return words.replaceAll("The new unit", "The unit").replaceAll("the new unit", "the unit");
}

/** The answers, as a plan reads them. */
export function decisionsOf(
  profileId: string,
  questions: readonly Question[],
  verdicts: readonly FitVerdict[],
): Decisions {
  return {
    kind: "boothkeep.decisions",
    schemaVersion: "1.0.0",
    fromProfileId: profileId,
    toProfileId: profileId,
    answers: questions.flatMap(({ id }, index) => {
      const { isOpen, option, ids } = verdicts[index]!;
      if (isOpen) return [];
      return [
        {
          questionId: id,
          optionId: option.id === "not-added" ? REFUSES : option.id,
          ...(ids.length > 0 && { ids }),
          ...(option.weakensProtection === true && { accepts: "weaker-protection" as const }),
        },
      ];
    }),
  };
}

/** EQ sets that are not wanted without what the unit lacks. */
export function refusedItems(verdicts: readonly FitVerdict[]): ReadonlySet<string> {
  return new Set(
    verdicts
      .filter(({ isOpen, option }) => !isOpen && option.id === "not-added")
      .map(({ question }) => question.place.split("/"))
      .filter(([, list]) => list === "equalizations")
      .map(([, , id]) => id!),
  );
}
