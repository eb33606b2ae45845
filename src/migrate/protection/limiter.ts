import type { Limiter, LimiterAbility, Output, PlanPlace, QuestionOption } from "../../model/index.ts";
import { gridContains, gridNearest, gridNeighbours } from "../../profile/index.ts";
import { printDb, printMs } from "../../units/index.ts";
import { figure } from "../figure.ts";
import { ask, outcomeOf, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";
import { type Carried, MUTE } from "./crossover.ts";

/** A threshold may come down by this much without a question. Common practice, no source. */
const THRESHOLD_STEP_DB = 1;

/**
 * A limiter: threshold and attack go to the unit's next value that protects at least as well (not above, not slower), the
 * release to the nearest. Anything else is asked about, and the output is muted meanwhile.
 */
export function carryLimiter(context: StepContext, output: Output): Carried<Limiter | undefined> {
  const { limiter } = output;
  if (limiter === undefined) return { value: undefined, items: [], questions: [], silence: false };
  const at = place(`outputs/${output.id}/limiter`, `${context.words.output(output)}, limiter`);
  const ability = context.to.outputs.limiter;
  if (!limiter.enabled) return carryIdle(ability, limiter, at);
  const strict = ability === undefined ? undefined : strictLimiter(ability, limiter);
  if (strict !== undefined) return settled(limiter, strict, at);
  return askAbout(context, { limiter, ability, at });
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

/** The limiter on the unit's values that guards no less; undefined where there is none near enough. */
function strictLimiter(ability: LimiterAbility, limiter: Limiter): Limiter | undefined {
  const threshold = gridNeighbours(ability.thresholdDbfs, limiter.thresholdDbfs).below;
  const attack = gridNeighbours(ability.attackMs, limiter.attackMs).below;
  if (threshold === undefined || attack === undefined) return undefined;
  if (limiter.thresholdDbfs - threshold > THRESHOLD_STEP_DB) return undefined;
  return {
    ...limiter,
    thresholdDbfs: gridContains(ability.thresholdDbfs, limiter.thresholdDbfs)
      ? limiter.thresholdDbfs
      : threshold,
    attackMs: gridContains(ability.attackMs, limiter.attackMs) ? limiter.attackMs : attack,
    releaseMs: gridContains(ability.releaseMs, limiter.releaseMs)
      ? limiter.releaseMs
      : gridNearest(ability.releaseMs, limiter.releaseMs),
  };
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
            ? `${limiterWords(after)} as before.`
            : "The other values of the limiter stay.",
        claims: same.map((name) => `${at.address}/${name}`),
      },
      ...(changed.length === 0
        ? []
        : [
            {
              outcome: "rounded" as const,
              place: at,
              words: `From ${limiterWords(before)} to ${limiterWords(after)}: never later, never higher.`,
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

function limiterWords({ thresholdDbfs, attackMs, releaseMs }: Limiter): string {
  return `${printDb(thresholdDbfs)}FS, attack ${printMs(attackMs)}, release ${printMs(releaseMs, 0)}`;
}

interface Trouble {
  readonly limiter: Limiter;
  readonly ability: LimiterAbility | undefined;
  readonly at: PlanPlace;
}

function askAbout(context: StepContext, { limiter, ability, at }: Trouble): Carried<Limiter | undefined> {
  const near = ability === undefined ? undefined : nearestLimiter(ability, limiter);
  const options: QuestionOption[] = [
    ...(near === undefined ? [] : [nearOption(limiter, near)]),
    {
      id: "limiter-elsewhere",
      words: "A limiter in the amplifier or before it guards this way.",
      consequence: `The unit itself no longer limits. Somebody has to set ${limiterWords(limiter)} there and check it.`,
      numbers: {},
      weakensProtection: true,
    },
    MUTE,
  ];
  const harmless = options.find(
    ({ id, weakensProtection }) => id === "nearest" && weakensProtection !== true,
  );
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: `The new unit cannot limit as before (${limiterWords(limiter)}). How shall this way be guarded?`,
    options,
    ...(harmless === undefined
      ? {}
      : { recommended: { optionId: harmless.id, reason: "it protects at least as well as before." } }),
    unanswered: { optionId: MUTE.id, words: "The output stays muted until it is settled." },
  });
  const silence = verdict.option.id === MUTE.id;
  const value = verdict.option.id === "limiter-elsewhere" ? undefined : near;
  return {
    value,
    items: [
      {
        outcome: outcomeOf(verdict, value === undefined || silence ? "lost" : "rounded"),
        place: at,
        words: `${limiterWords(limiter)} cannot be set. ${verdict.option.words}`,
        numbers: verdict.option.numbers,
        claims: [at.address],
        questionId: verdict.question.id,
      },
    ],
    questions: [verdict.question],
    silence,
  };
}

function nearOption(before: Limiter, near: Limiter): QuestionOption {
  const weaker = near.thresholdDbfs > before.thresholdDbfs || near.attackMs > before.attackMs;
  return {
    id: "nearest",
    words: `The nearest that the unit has: ${limiterWords(near)}.`,
    consequence: weaker
      ? `It acts ${near.thresholdDbfs > before.thresholdDbfs ? `${printDb(near.thresholdDbfs - before.thresholdDbfs)} later` : "more slowly"} than before.`
      : "It acts earlier than before and may be heard at full level.",
    numbers: {
      thresholdChangeDb: figure(near.thresholdDbfs - before.thresholdDbfs, 3),
      attackChangeMs: figure(near.attackMs - before.attackMs, 3),
    },
    ...(weaker ? { weakensProtection: true } : {}),
  };
}
