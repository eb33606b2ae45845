import {
  type EqBand,
  type FilterAbility,
  leavesOf,
  type PlanPlace,
  type Question,
} from "../../../model/index.ts";
import { filterObstacle, gridNearest } from "../../../profile/index.ts";
import { printHz } from "../../../words/index.ts";
import { NOT_THIS_UNIT, UNDECIDED } from "../not-this-unit.ts";
import { ask, outcomeOf, type StepContext, type StepItem } from "../step.ts";
import type { EqualizerInput } from "./equalizer.ts";

/** Kinds that another curve cannot stand for: they are carried as they are or asked about. */
export const OF_ITS_OWN: ReadonlySet<EqBand["kind"]> = new Set([
  "high-pass",
  "low-pass",
  "band-pass",
  "notch",
  "all-pass",
]);

export interface OwnKinds {
  readonly kept: readonly EqBand[];
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

/** Notches, all-passes and pass filters: kept on the unit's steps where it has the kind, else asked about. */
export function carryOwnKinds(context: StepContext, input: EqualizerInput, own: readonly EqBand[]): OwnKinds {
  const { filterAbility, at, names } = input;
  const kept: EqBand[] = [];
  const items: StepItem[] = [];
  const questions: Question[] = [];
  for (const band of own) {
    const address = `${at.address}/${names.parametric}/${band.id}`;
    const words = `${at.words}, ${band.kind} at ${printHz(band.frequencyHz)}`;
    const fits =
      filterAbility !== undefined &&
      filterObstacle(filterAbility, band) === undefined &&
      kept.length < filterAbility.bands;
    if (fits) {
      const now = onSteps(band, filterAbility);
      kept.push(now);
      items.push(...comparedItems({ address, words }, band, now));
      continue;
    }
    const verdict = ask(context, {
      id: address,
      place: { address, words },
      words: `The new unit has no ${band.kind} filter left here (${printHz(band.frequencyHz)}). May it be left out?`,
      options: [
        {
          id: "leave-out",
          words: "It is left out.",
          consequence: "No other filter does the same; the proof shows what changes.",
          numbers: { frequencyHz: band.frequencyHz },
          ...(band.kind === "high-pass" ? { weakensProtection: true } : {}),
        },
        NOT_THIS_UNIT,
      ],
      unanswered: UNDECIDED,
    });
    items.push({
      outcome: outcomeOf(verdict, "lost"),
      place: { address, words },
      words: `The new unit has no ${band.kind} filter left here. ${verdict.option.words}`,
      claims: [address],
      questionId: verdict.question.id,
    });
    questions.push(verdict.question);
  }
  return { kept, items, questions };
}

/** A filter with frequency and width on the unit's steps. */
export function onSteps(band: EqBand, ability: FilterAbility): EqBand {
  return {
    ...band,
    frequencyHz: gridNearest(ability.frequencyHz, band.frequencyHz),
    ...("q" in band && band.q !== undefined ? { q: gridNearest(ability.q, band.q) } : {}),
  };
}

function comparedItems(at: PlanPlace, before: EqBand, after: EqBand): readonly StepItem[] {
  const now = leavesOf(after);
  const changed: string[] = [];
  const same: string[] = [];
  for (const [name, value] of leavesOf(before)) {
    (now.get(name) === value ? same : changed).push(`${at.address}/${name}`);
  }
  return [
    { outcome: "kept", place: at, words: "The same kind of filter.", claims: same },
    ...(changed.length === 0
      ? []
      : [
          {
            outcome: "rounded" as const,
            place: at,
            words: `From ${printHz(before.frequencyHz)} to ${printHz(after.frequencyHz)}, the unit's next value.`,
            claims: changed,
          },
        ]),
  ];
}
