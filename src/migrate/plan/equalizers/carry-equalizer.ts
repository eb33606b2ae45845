import type { EqBand, EqFitReport, GraphicEq, Question } from "../../../model/index.ts";
import { NOT_THIS_UNIT, UNDECIDED } from "../not-this-unit.ts";
import { ask, outcomeOf, type StepContext, type StepItem } from "../step.ts";
import type { EqFilter, EqFit, EqTask } from "./eq-task.ts";
import { type Equalizer, type EqualizerInput, isActive } from "./equalizer.ts";
import { equalizerDocument } from "./equalizer-document.ts";
import { equalizerItems, equalizerReport } from "./equalizer-items.ts";
import { carryOwnKinds, OF_ITS_OWN, type OwnKinds } from "./own-kinds.ts";

export interface CarriedEqualizer {
  readonly equalizer: Equalizer;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
  readonly report: EqFitReport | undefined;
}

/**
 * Carries one equalizer over: as it is where it fits, else by other filters with the nearest response. Filters that only
 * their own kind can do are never approximated. Bypassed filters go along while there is room.
 */
export function carryEqualizer(context: StepContext, input: EqualizerInput): CarriedEqualizer {
  const { equalizer } = input;
  const active = equalizer.parametric.filter(isActive);
  const own = active.filter(({ kind }) => OF_ITS_OWN.has(kind));
  const special = carryOwnKinds(context, input, own);
  const shaped = active.filter(({ kind }) => !OF_ITS_OWN.has(kind));
  const graphic =
    equalizer.graphic !== undefined && equalizer.graphic.enabled !== false ? equalizer.graphic : undefined;
  const task = taskOf(context, input, { graphic, shaped, reserved: special.kept.length });
  const nothing = graphic === undefined && shaped.length === 0;
  if (!nothing && task.target.graphic === undefined && task.target.filters === undefined) {
    return withoutEqualizer(context, input, special);
  }
  const fit = nothing ? NEUTRAL : context.eqFits.fit(task);
  const now = equalizerDocument(input, fit, special.kept, shaped);
  return {
    equalizer: now,
    items: [...special.items, ...equalizerItems(input, { fit, now, own })],
    questions: special.questions,
    report: nothing ? undefined : equalizerReport(input, fit),
  };
}

const NEUTRAL: EqFit = { filters: [], method: "copied", rmsDb: 0, maxDb: 0, maxAtHz: 0 };

function taskOf(
  { old, next, from }: StepContext,
  input: EqualizerInput,
  {
    graphic,
    shaped,
    reserved,
  }: {
    readonly graphic: GraphicEq | undefined;
    readonly shaped: readonly EqBand[];
    readonly reserved: number;
  },
): EqTask {
  const { graphicAbility, filterAbility } = input;
  const bands = (filterAbility?.bands ?? 0) - reserved;
  const graphicQ = from.equalizations.graphic?.q;
  return {
    source: {
      sampleRateHz: old.unit.sampleRateHz,
      ...(graphic === undefined ? {} : { graphic: { layout: graphic.layout, gainsDb: graphic.gainsDb } }),
      ...(graphic === undefined || graphicQ === undefined ? {} : { graphicQ }),
      filters: shaped.map(withoutKey),
    },
    target: {
      sampleRateHz: next.unit.sampleRateHz,
      ...(graphicAbility === undefined ? {} : { graphic: graphicAbility }),
      ...(filterAbility === undefined || bands <= 0 ? {} : { filters: { ...filterAbility, bands } }),
    },
    effort: input.effort,
  };
}

function withoutKey(band: EqBand): EqFilter {
  const { id: _id, enabled: _enabled, ...filter } = band;
  return filter as EqFilter;
}

function withoutEqualizer(context: StepContext, input: EqualizerInput, special: OwnKinds): CarriedEqualizer {
  const { at, names } = input;
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: `The new unit has no equalizer for ${at.words}. May it be left out?`,
    options: [
      {
        id: "leave-out",
        words: "It is left out.",
        consequence: "The response of every path through it changes by its whole curve.",
        numbers: {},
      },
      NOT_THIS_UNIT,
    ],
    unanswered: UNDECIDED,
  });
  const item: StepItem = {
    outcome: outcomeOf(verdict, "lost"),
    place: at,
    words: `No equalizer here on the new unit. ${verdict.option.words}`,
    claimsRest: [
      `${at.address}/${names.parametric}`,
      ...(names.graphic === undefined ? [] : [`${at.address}/${names.graphic}`]),
    ],
    questionId: verdict.question.id,
  };
  return {
    equalizer: { parametric: special.kept },
    items: [...special.items, item],
    questions: [...special.questions, verdict.question],
    report: undefined,
  };
}
