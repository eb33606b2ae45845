import type {
  Limiter,
  LimiterAbility,
  NumberGrid,
  Output,
  PlanPlace,
  QuestionOption,
} from "../../../model/index.ts";
import { gridContains, gridNearest, gridNeighbours } from "../../../profile/index.ts";
import { limiterInPlan, printDb, printNumber } from "../../../words/index.ts";
import { figure } from "../figure.ts";
import { ask, outcomeOf, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";
import { type Carried, MUTE } from "./crossover.ts";

/** A threshold may come down by this much without a question. Common practice, no source. */
const SAME_THRESHOLD_DB = 0.3;
/** Times may change by this share without a question. Common practice, no source. */
const SAME_TIME_RATIO = 1.1;

/**
 * A limiter: threshold and attack go to the unit's next value that protects at least as well (not above, not slower), the
 * release to one that is not much shorter. Where that moves a value by more than a little, or cannot be had, it is asked
 * about, and the output is muted meanwhile.
 */
export function carryLimiter(context: StepContext, output: Output): Carried<Limiter | undefined> {
  const { limiter } = output;
  if (limiter === undefined) return { value: undefined, items: [], questions: [], silence: false };
  const at = place(`outputs/${output.id}/limiter`, `${context.words.output(output)}, limiter`);
  const ability = context.to.outputs.limiter;
  if (!limiter.enabled) return carryIdle(ability, limiter, at);
  const strict = ability === undefined ? undefined : strictLimiter(ability, limiter);
  if (strict !== undefined && isNear(limiter, strict)) return settled(limiter, strict, at);
  return askAbout(context, { limiter, ability, strict, at });
}

/** A limiter that is switched off guards nothing: its values go along as far as they can. */
function carryIdle(
  ability: LimiterAbility | undefined,
  limiter: Limiter,
  at: PlanPlace,
): Carried<Limiter | undefined> {
  if (ability !== undefined) return settled(limiter, nearestLimiter(ability, limiter), at);
  const item: StepItem = {
    outcome: "lost",
    place: at,
    words: "The limiter was switched off, and the new unit has none: its values are left out.",
    claims: [at.address],
  };
  return { value: undefined, items: [item], questions: [], silence: false };
}

function nearestLimiter(ability: LimiterAbility, limiter: Limiter): Limiter {
  return {
    ...limiter,
    thresholdDbfs: gridNearest(ability.thresholdDbfs, limiter.thresholdDbfs),
    attackMs: gridNearest(ability.attackMs, limiter.attackMs),
    releaseMs: gridNearest(ability.releaseMs, limiter.releaseMs),
  };
}

/** The limiter on the unit's values that guards no less; undefined where there is none. */
function strictLimiter(ability: LimiterAbility, limiter: Limiter): Limiter | undefined {
  const threshold = notAbove(ability.thresholdDbfs, limiter.thresholdDbfs);
  const attack = notAbove(ability.attackMs, limiter.attackMs);
  const release = longEnough(ability.releaseMs, limiter.releaseMs);
  if (threshold === undefined || attack === undefined || release === undefined) return undefined;
  return { ...limiter, thresholdDbfs: threshold, attackMs: attack, releaseMs: release };
}

function notAbove(grid: NumberGrid, value: number): number | undefined {
  return gridContains(grid, value) ? value : gridNeighbours(grid, value).below;
}

/** A release that is much shorter heats the driver more: only a little shorter will do, else a longer one. */
function longEnough(grid: NumberGrid, value: number): number | undefined {
  if (gridContains(grid, value)) return value;
  const nearest = gridNearest(grid, value);
  return ratioOf(nearest, value) <= SAME_TIME_RATIO ? nearest : gridNeighbours(grid, value).above;
}

function isNear(before: Limiter, after: Limiter): boolean {
  return (
    before.thresholdDbfs - after.thresholdDbfs <= SAME_THRESHOLD_DB + 1e-9 &&
    ratioOf(before.attackMs, after.attackMs) <= SAME_TIME_RATIO &&
    ratioOf(before.releaseMs, after.releaseMs) <= SAME_TIME_RATIO
  );
}

/** How many times the longer of two times is as long as the other. */
function ratioOf(a: number, b: number): number {
  return a === b ? 1 : Math.max(a, b) / Math.min(a, b);
}

const VALUES = ["thresholdDbfs", "attackMs", "releaseMs"] as const;

function settled(before: Limiter, after: Limiter, at: PlanPlace): Carried<Limiter> {
  const changed = VALUES.filter((name) => before[name] !== after[name]);
  const same = ["enabled", ...VALUES.filter((name) => before[name] === after[name])];
  return {
    value: after,
    items: [
      {
        outcome: "kept",
        place: at,
        words:
          changed.length === 0
            ? `${limiterInPlan(after)} as before.`
            : "The other values of the limiter stay.",
        claims: same.map((name) => `${at.address}/${name}`),
      },
      ...(changed.length === 0
        ? []
        : [
            {
              outcome: "rounded" as const,
              place: at,
              words: `From ${limiterInPlan(before)} to ${limiterInPlan(after)}: never later, never higher.`,
              numbers: Object.fromEntries(
                changed.flatMap((name) => [
                  [`from${name.charAt(0).toUpperCase()}${name.slice(1)}`, before[name]],
                  [`to${name.charAt(0).toUpperCase()}${name.slice(1)}`, after[name]],
                ]),
              ),
              claims: changed.map((name) => `${at.address}/${name}`),
            },
          ]),
    ],
    questions: [],
    silence: false,
  };
}

interface Trouble {
  readonly limiter: Limiter;
  readonly ability: LimiterAbility | undefined;
  /** On the unit's values, guarding no less. */
  readonly strict: Limiter | undefined;
  readonly at: PlanPlace;
}

function askAbout(
  context: StepContext,
  { limiter, ability, strict, at }: Trouble,
): Carried<Limiter | undefined> {
  const near = ability === undefined ? undefined : nearestLimiter(ability, limiter);
  const nearIsStrict =
    near !== undefined && strict !== undefined && VALUES.every((name) => near[name] === strict[name]);
  const options: QuestionOption[] = [
    ...(strict === undefined ? [] : [strictOption(limiter, strict)]),
    ...(near === undefined || nearIsStrict ? [] : [nearOption(limiter, near)]),
    {
      id: "limiter-elsewhere",
      words: "A limiter in the amplifier or before it guards this way.",
      consequence: `The unit itself no longer limits. Somebody has to set ${limiterInPlan(limiter)} there and check it.`,
      numbers: {},
      weakensProtection: true,
      sets: { limiter: null },
    },
    MUTE,
  ];
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: `The new unit cannot limit as before (${limiterInPlan(limiter)}). How shall this way be guarded?`,
    options,
    ...(strict === undefined
      ? {}
      : { recommended: { optionId: GUARDS_AS_WELL, reason: "it protects at least as well as before." } }),
    unanswered: { optionId: MUTE.id, words: "The output stays muted until it is settled." },
  });
  const silence = verdict.option.id === MUTE.id;
  const values: Readonly<Record<string, Limiter | undefined>> = { [GUARDS_AS_WELL]: strict, [NEAREST]: near };
  const value = silence ? (strict ?? near) : values[verdict.option.id];
  return {
    value,
    items: [
      {
        outcome: outcomeOf(verdict, value === undefined || silence ? "lost" : "rounded"),
        place: at,
        words: `${limiterInPlan(limiter)} cannot be set. ${verdict.option.words}`,
        numbers: verdict.option.numbers,
        claims: [at.address],
        questionId: verdict.question.id,
      },
    ],
    questions: [verdict.question],
    silence,
  };
}

const GUARDS_AS_WELL = "guards-as-well";
const NEAREST = "nearest";

function strictOption(before: Limiter, strict: Limiter): QuestionOption {
  return {
    id: GUARDS_AS_WELL,
    words: `The nearest that guards as well: ${limiterInPlan(strict)}.`,
    consequence: `${changeWords(before, strict)} It may be heard at full level.`,
    numbers: changeNumbers(before, strict),
    sets: { limiter: strict },
  };
}

function nearOption(before: Limiter, near: Limiter): QuestionOption {
  const weaker =
    near.thresholdDbfs > before.thresholdDbfs ||
    near.attackMs > before.attackMs ||
    near.releaseMs * SAME_TIME_RATIO < before.releaseMs;
  return {
    id: NEAREST,
    words: `The nearest that the unit has: ${limiterInPlan(near)}.`,
    consequence: changeWords(before, near),
    numbers: changeNumbers(before, near),
    ...(weaker ? { weakensProtection: true } : {}),
    sets: { limiter: near },
  };
}

/** "It acts 0.5 dB earlier, attacks 3 times as fast and lets go 2 times as slowly." */
function changeWords(before: Limiter, after: Limiter): string {
  const threshold = after.thresholdDbfs - before.thresholdDbfs;
  const times = (a: number, b: number) => printNumber(ratioOf(a, b), 2);
  const parts = [
    ...(threshold === 0
      ? []
      : [`acts ${printDb(Math.abs(threshold))} ${threshold > 0 ? "later" : "earlier"}`]),
    ...(after.attackMs === before.attackMs
      ? []
      : [
          `attacks ${times(before.attackMs, after.attackMs)} times as ${after.attackMs > before.attackMs ? "slowly" : "fast"}`,
        ]),
    ...(after.releaseMs === before.releaseMs
      ? []
      : [
          `lets go ${times(before.releaseMs, after.releaseMs)} times as ${after.releaseMs > before.releaseMs ? "slowly" : "fast, which heats the driver more"}`,
        ]),
  ];
  return `It ${parts.join("; ")}.`;
}

function changeNumbers(before: Limiter, after: Limiter): QuestionOption["numbers"] {
  return {
    thresholdChangeDb: figure(after.thresholdDbfs - before.thresholdDbfs, 3),
    attackChangeMs: figure(after.attackMs - before.attackMs, 3),
    releaseChangeMs: figure(after.releaseMs - before.releaseMs, 3),
  };
}
