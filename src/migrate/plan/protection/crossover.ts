import type { CrossoverSide } from "../../../acoustics/index.ts";
import { octavesBetween } from "../../../base/units/index.ts";
import type { Crossover, Output, PlanPlace, Question, QuestionOption } from "../../../model/index.ts";
import { crossoverObstacle, gridNeighbours } from "../../../profile/index.ts";
import { crossoverInPlan, printHz, printSigned } from "../../../words/index.ts";
import { figure } from "../figure.ts";
import { ask, outcomeOf, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";
import { crossoverSubstitutes, SAME_CORNER_OCTAVES, WEAKER_DB } from "./crossover-options.ts";

/** One protective thing of an output carried over. */
export interface Carried<T> {
  readonly value: T;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
  /** True: the output has to stay silent, because what guards it is not settled. */
  readonly silence: boolean;
}

export const MUTE: QuestionOption = {
  id: "mute-output",
  words: "The output stays muted.",
  consequence: "Nothing can be damaged; this way is silent until it is settled.",
  numbers: {},
  sets: { mute: true },
};

/**
 * A high-pass or low-pass: same family and order, corner on the unit's next value. A high-pass that the loudspeaker's data
 * sheet calls safe is never rounded below that. Whatever needs more than that is asked about, and the output is muted
 * meanwhile.
 */
export function carryCrossover(
  context: StepContext,
  output: Output,
  side: CrossoverSide,
): Carried<Crossover | undefined> {
  const key = side === "high-pass" ? "highPass" : "lowPass";
  const crossover = output[key];
  if (crossover === undefined) return { value: undefined, items: [], questions: [], silence: false };
  const at = place(`outputs/${output.id}/${key}`, `${context.words.output(output)}, ${side}`);
  const corner = sameCorner(context, output, side, crossover);
  if (corner === undefined) return askAbout(context, { output, side, crossover, at });
  const exact = corner === crossover.frequencyHz;
  const changed = [`${at.address}/frequencyHz`];
  const rest = ["family", "order", "normalization"].map((name) => `${at.address}/${name}`);
  return {
    value: exact ? crossover : { ...crossover, frequencyHz: corner },
    items: [
      {
        outcome: "kept",
        place: at,
        words: exact ? `${crossoverInPlan(crossover)} as before.` : "Family and order stay.",
        claims: exact ? [...rest, ...changed] : rest,
      },
      ...(exact
        ? []
        : [
            {
              outcome: "rounded" as const,
              place: at,
              words: `The corner goes from ${printHz(crossover.frequencyHz)} to ${printHz(corner)}, the unit's next value (${printSigned(octavesBetween(crossover.frequencyHz, corner), 3)} octaves).`,
              numbers: {
                fromHz: crossover.frequencyHz,
                toHz: corner,
                octaves: figure(octavesBetween(crossover.frequencyHz, corner), 4),
              },
              claims: changed,
            },
          ]),
    ],
    questions: [],
    silence: false,
  };
}

/**
 * The corner on the unit's grid; undefined where family, order or the grid do not give the same filter. A high-pass is not
 * moved down so far that it guards noticeably less. A low-pass goes where the high-pass goes that it meets.
 */
function sameCorner(
  context: StepContext,
  output: Output,
  side: CrossoverSide,
  crossover: Crossover,
): number | undefined {
  const corners = nearCorners(context, output, side, crossover);
  const partner = side === "low-pass" ? meeting(context.old, output, crossover) : undefined;
  const shared = partner === undefined ? undefined : sameCorner(context, partner, "high-pass", crossover);
  if (shared !== undefined && corners.includes(shared)) return shared;
  const distance = (corner: number) => Math.abs(octavesBetween(crossover.frequencyHz, corner));
  return corners.sort((a, b) => distance(a) - distance(b) || b - a)[0];
}

/** A high-pass of order n falls by 6.02·n dB an octave. */
const DB_PER_OCTAVE_AND_ORDER = 20 * Math.log10(2);

/** The values of the unit next to a corner that give the same filter. */
function nearCorners(
  { old, to, next }: StepContext,
  output: Output,
  side: CrossoverSide,
  crossover: Crossover,
): number[] {
  const ability = side === "high-pass" ? to.outputs.highPass : to.outputs.lowPass;
  if (crossoverObstacle(ability, crossover) !== undefined) return [];
  const { below, above } = gridNeighbours(ability.frequencyHz, crossover.frequencyHz);
  const safeHz = side === "high-pass" ? safeHighPassHz(old, output) : 0;
  const wasSafe = crossover.frequencyHz >= safeHz;
  const leakDb = (corner: number) =>
    side === "low-pass"
      ? 0
      : octavesBetween(corner, crossover.frequencyHz) * crossover.order * DB_PER_OCTAVE_AND_ORDER;
  return [below, above].filter(
    (corner): corner is number =>
      corner !== undefined &&
      corner < next.unit.sampleRateHz / 2 &&
      Math.abs(octavesBetween(crossover.frequencyHz, corner)) <= SAME_CORNER_OCTAVES &&
      (!wasSafe || corner >= safeHz) &&
      leakDb(corner) <= WEAKER_DB,
  );
}

/** The output of the same loudspeaker whose high-pass is the other half of a crossover. */
function meeting({ outputs }: StepContext["old"], { feeds }: Output, half: Crossover): Output | undefined {
  if (feeds.kind !== "loudspeaker") return undefined;
  return outputs.find(
    (other) =>
      other.feeds.kind === "loudspeaker" &&
      other.feeds.loudspeakerId === feeds.loudspeakerId &&
      other.highPass?.family === half.family &&
      other.highPass.order === half.order &&
      other.highPass.frequencyHz === half.frequencyHz,
  );
}

function safeHighPassHz(configuration: StepContext["old"], { feeds }: Output): number {
  if (feeds.kind !== "loudspeaker") return 0;
  const way = configuration.loudspeakers
    .find(({ id }) => id === feeds.loudspeakerId)
    ?.ways.find(({ id }) => id === feeds.wayId);
  return way?.safeHighPassHz ?? 0;
}

interface Trouble {
  readonly output: Output;
  readonly side: CrossoverSide;
  readonly crossover: Crossover;
  readonly at: PlanPlace;
}

function askAbout(
  context: StepContext,
  { output, side, crossover, at }: Trouble,
): Carried<Crossover | undefined> {
  const { to, next, old } = context;
  const ability = side === "high-pass" ? to.outputs.highPass : to.outputs.lowPass;
  const substitutes = crossoverSubstitutes({
    configuration: old,
    output,
    side,
    crossover,
    ability,
    sampleRateHz: next.unit.sampleRateHz,
  });
  const harmless = substitutes.find(({ option }) => option.weakensProtection !== true);
  const verdict = ask(context, {
    id: at.address,
    place: at,
    words: `The new unit has no ${crossoverInPlan(crossover)} here. Which filter shall guard this way?`,
    options: [...substitutes.map(({ option }) => option), MUTE],
    ...(harmless === undefined
      ? {}
      : {
          recommended: {
            optionId: harmless.option.id,
            reason: "of those that protect as well as before it comes nearest.",
          },
        }),
    unanswered: {
      optionId: MUTE.id,
      words: "The output stays muted: a wrong filter could destroy the driver.",
    },
  });
  const chosen = substitutes.find(({ option }) => option.id === verdict.option.id)?.crossover;
  return {
    value: chosen ?? harmless?.crossover ?? substitutes[0]?.crossover,
    items: [
      {
        outcome: outcomeOf(verdict, chosen === undefined ? "lost" : "rounded"),
        place: at,
        words: `${crossoverInPlan(crossover)} is not there. ${verdict.option.words}`,
        numbers: verdict.option.numbers,
        claims: [at.address],
        questionId: verdict.question.id,
      },
    ],
    questions: [verdict.question],
    silence: chosen === undefined,
  };
}
