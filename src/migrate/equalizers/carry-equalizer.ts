import type {
  EqBand,
  EqFitReport,
  FilterAbility,
  GraphicAbility,
  GraphicEq,
  PlanPlace,
  Question,
} from "../../model/index.ts";
import { filterObstacle, gridNearest } from "../../profile/index.ts";
import { printDb, printHz } from "../../units/index.ts";
import { leavesOf } from "../address.ts";
import { ask, outcomeOf, type StepContext, type StepItem } from "../step.ts";
import type { EqFilter, EqFit, EqTask } from "./eq-task.ts";

/** An equalizer as a document holds it. */
export interface Equalizer {
  readonly graphic?: GraphicEq;
  readonly parametric: readonly EqBand[];
}

export interface EqualizerInput {
  readonly at: PlanPlace;
  readonly equalizer: Equalizer;
  /** Names under which the document holds the two parts, below the place. */
  readonly names: { readonly graphic?: string; readonly parametric: string };
  readonly graphicAbility: GraphicAbility | undefined;
  readonly filterAbility: FilterAbility | undefined;
  readonly effort: EqTask["effort"];
}

export interface CarriedEqualizer {
  readonly equalizer: Equalizer;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
  readonly report: EqFitReport | undefined;
}

/** Kinds that another curve cannot stand for: they are carried as they are or asked about. */
const OF_ITS_OWN: ReadonlySet<EqBand["kind"]> = new Set([
  "high-pass",
  "low-pass",
  "band-pass",
  "notch",
  "all-pass",
]);

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
  const now = documentOf(input, fit, special.kept, shaped);
  return {
    equalizer: now,
    items: [...special.items, ...itemsOf(context, input, { fit, now, own })],
    questions: special.questions,
    report: nothing ? undefined : reportOf(input, fit),
  };
}

const NEUTRAL: EqFit = { filters: [], method: "copied", rmsDb: 0, maxDb: 0, maxAtHz: 0 };

function isActive(band: EqBand): boolean {
  if (band.enabled === false) return false;
  return !("gainDb" in band) || band.gainDb !== 0;
}

function taskOf(
  { old, next, from, effort }: Pick<StepContext, "old" | "next" | "from"> & { readonly effort?: string },
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
  void effort;
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

interface OwnKinds {
  readonly kept: readonly EqBand[];
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

/** Notches, all-passes and pass filters: kept on the unit's steps where it has the kind, else asked about. */
function carryOwnKinds(context: StepContext, input: EqualizerInput, own: readonly EqBand[]): OwnKinds {
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
        {
          id: "not-this-unit",
          words: "That is not acceptable.",
          consequence: "The plan stays as a study.",
          numbers: { frequencyHz: band.frequencyHz },
        },
      ],
      unanswered: { optionId: "not-this-unit", words: "The plan is not to be carried out." },
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

function onSteps(band: EqBand, ability: FilterAbility): EqBand {
  return {
    ...band,
    frequencyHz: gridNearest(ability.frequencyHz, band.frequencyHz),
    ...("q" in band && band.q !== undefined ? { q: gridNearest(ability.q, band.q) } : {}),
  };
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
      {
        id: "not-this-unit",
        words: "That is not acceptable.",
        consequence: "The plan stays as a study.",
        numbers: {},
      },
    ],
    unanswered: { optionId: "not-this-unit", words: "The plan is not to be carried out." },
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

/** The equalizer as the new document holds it: copied filters keep their keys, others are numbered. */
function documentOf(
  input: EqualizerInput,
  fit: EqFit,
  kept: readonly EqBand[],
  shaped: readonly EqBand[],
): Equalizer {
  const { equalizer, filterAbility, graphicAbility } = input;
  const sameFilters = fit.method !== "refitted" && fit.filters.length === shaped.length;
  const taken = new Set(kept.map(({ id }) => id));
  let number = 0;
  const fresh = () => {
    do number += 1;
    while (taken.has(`b${number}`));
    return `b${number}`;
  };
  const fitted = fit.filters.map(
    (filter, index) =>
      ({
        id: sameFilters ? shaped[index]!.id : fresh(),
        ...filter,
        ...enabledOf(sameFilters ? shaped[index] : undefined),
      }) as EqBand,
  );
  const all = sameFilters ? inOldOrder(equalizer.parametric, [...fitted, ...kept]) : [...fitted, ...kept];
  const room = (filterAbility?.bands ?? 0) - all.length;
  const idle = equalizer.parametric
    .filter((band) => !isActive(band))
    .filter((band) => filterAbility !== undefined && filterObstacle(filterAbility, band) === undefined)
    .filter((band) => !all.some(({ id }) => id === band.id))
    .slice(0, Math.max(0, room))
    .map((band) => idleOnSteps(band, filterAbility!));
  const parametric = sameFilters ? inOldOrder(equalizer.parametric, [...all, ...idle]) : [...all, ...idle];
  return { parametric, ...graphicOf(equalizer.graphic, fit, graphicAbility) };
}

function enabledOf(band: EqBand | undefined): { readonly enabled?: boolean } {
  return band?.enabled === undefined ? {} : { enabled: band.enabled };
}

function inOldOrder(old: readonly EqBand[], now: readonly EqBand[]): readonly EqBand[] {
  const place = (band: EqBand) => old.findIndex(({ id }) => id === band.id);
  return [...now].sort((a, b) => place(a) - place(b));
}

function idleOnSteps(band: EqBand, ability: FilterAbility): EqBand {
  const now = onSteps(band, ability);
  return {
    ...now,
    ...("gainDb" in now ? { gainDb: gridNearest(ability.gainDb, now.gainDb) } : {}),
    ...("slope" in now && now.slope !== undefined && ability.slope !== undefined
      ? { slope: gridNearest(ability.slope, now.slope) }
      : {}),
  } as EqBand;
}

function graphicOf(
  old: GraphicEq | undefined,
  fit: EqFit,
  ability: GraphicAbility | undefined,
): { readonly graphic?: GraphicEq } {
  if (fit.graphic !== undefined) {
    return { graphic: { ...fit.graphic, ...(old?.enabled === true ? { enabled: true } : {}) } };
  }
  // A bypassed or flat graphic of the same layout goes along as it is.
  if (old === undefined || ability === undefined || old.layout !== ability.layout) return {};
  return {
    graphic: {
      ...old,
      gainsDb: old.gainsDb.map((gain) => (old.enabled === false ? gridNearest(ability.gainDb, gain) : 0)),
    },
  };
}

function itemsOf(
  context: StepContext,
  input: EqualizerInput,
  { fit, now, own }: { readonly fit: EqFit; readonly now: Equalizer; readonly own: readonly EqBand[] },
): readonly StepItem[] {
  const { at, names, equalizer } = input;
  const done = new Set(own.map(({ id }) => id));
  const before = {
    ...(names.graphic === undefined || equalizer.graphic === undefined
      ? {}
      : { [names.graphic]: equalizer.graphic }),
    [names.parametric]: equalizer.parametric.filter(({ id }) => !done.has(id)),
  };
  const after = leavesOf({
    ...(names.graphic === undefined || now.graphic === undefined ? {} : { [names.graphic]: now.graphic }),
    [names.parametric]: now.parametric,
  });
  void context;
  const idle = new Set(equalizer.parametric.filter((band) => !isActive(band)).map(({ id }) => id));
  const groups = new Map<StepItem["outcome"], string[]>();
  for (const [address, value] of leavesOf(before)) {
    const [part, id] = address.split("/");
    const bypassed = part === names.parametric ? idle.has(id ?? "") : equalizer.graphic?.enabled === false;
    const same = after.get(address) === value && (fit.method !== "refitted" || bypassed);
    const gone = !after.has(address);
    const outcome = same
      ? "kept"
      : bypassed && gone
        ? "lost"
        : bypassed
          ? "rounded"
          : fit.method === "refitted"
            ? "refitted"
            : "rounded";
    groups.set(outcome, [...(groups.get(outcome) ?? []), `${at.address}/${address}`]);
  }
  return [...groups].map(([outcome, claims]) => ({
    outcome,
    place: at,
    words: wordsOf(outcome, fit, now),
    numbers: outcome === "kept" || outcome === "lost" ? {} : figures(fit),
    claims,
  }));
}

function wordsOf(outcome: StepItem["outcome"], fit: EqFit, now: Equalizer): string {
  const errors = `rms ${printDb(fit.rmsDb, 3)}, largest ${printDb(fit.maxDb, 2)} at ${printHz(fit.maxAtHz)}`;
  switch (outcome) {
    case "kept":
      return "The same filters as before.";
    case "lost":
      return "Bypassed filters, which do nothing, find no room.";
    case "rounded":
      return `On the unit's steps: ${errors}.`;
    default:
      return `By ${now.parametric.length} filters${now.graphic === undefined ? "" : " and the graphic bands"}: ${errors}.`;
  }
}

function figures(fit: EqFit): Record<string, number> {
  return { rmsDb: round(fit.rmsDb, 4), maxDb: round(fit.maxDb, 3), maxAtHz: round(fit.maxAtHz, 1) };
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

function reportOf({ at, effort }: EqualizerInput, fit: EqFit): EqFitReport {
  return {
    address: at.address,
    words: at.words,
    method: fit.method,
    effort,
    bandsUsed: fit.filters.length,
    rmsDb: round(fit.rmsDb, 4),
    maxDb: round(fit.maxDb, 3),
    maxAtHz: round(fit.maxAtHz, 1),
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
