import {
  acousticResponses,
  type CrossoverSide,
  cascadeResponse,
  crossoverSections,
  frequencyAxis,
  frequencyGrid,
  loudspeakerSums,
  magnitudeDb,
} from "../../../acoustics/index.ts";
import type {
  Configuration,
  Crossover,
  CrossoverAbility,
  Output,
  QuestionOption,
} from "../../../model/index.ts";
import { gridNeighbours } from "../../../profile/index.ts";
import { crossoverInPlan, printDb } from "../../../words/index.ts";
import { figure } from "../figure.ts";

/**
 * A corner that had to move by more than this is no longer "the same within the step": 1/24 octave. Common practice, no
 * source.
 */
export const SAME_CORNER_OCTAVES = 1 / 24;

/** A filter that the unit could run instead, with what it would do. */
export interface Substitute {
  readonly crossover: Crossover;
  readonly option: QuestionOption;
}

/** Responses are told apart as far down as this; below, more attenuation is no fault. */
const COMPARED_DB = -20;
/** Leaks are looked for as far down as this: below, a driver takes no harm. */
const HARMFUL_DB = -40;
/** So many octaves around the corner are looked at. */
const OCTAVES = 3;
const POINTS_PER_OCTAVE = 12;
/** So much more level outside its band means that a driver is less protected. Common practice, no source. */
export const WEAKER_DB = 0.5;
/**
 * A high-pass whose corner is lower by more than this protects less, whatever its response a few octaves below: as much as
 * a proof lets pass. Common practice, no source.
 */
const LOWER_CORNER_OCTAVES = 0.03;
const SUBSTITUTES_MAX = 3;

export interface SubstituteInput {
  readonly configuration: Configuration;
  readonly output: Output;
  readonly side: CrossoverSide;
  readonly crossover: Crossover;
  readonly ability: CrossoverAbility;
  readonly sampleRateHz: number;
}

/** The nearest filters that the unit has, nearest response first, each with the sum's ripple and phase. */
export function crossoverSubstitutes(input: SubstituteInput): readonly Substitute[] {
  const { crossover, ability, side, sampleRateHz } = input;
  const axis = frequencyAxis(
    sampleRateHz,
    frequencyGrid({
      fromHz: crossover.frequencyHz / 2 ** OCTAVES,
      toHz: crossover.frequencyHz * 2 ** OCTAVES,
      pointsPerOctave: POINTS_PER_OCTAVE,
      belowHz: sampleRateHz / 2,
    }),
  );
  const responseOf = (half: Crossover) =>
    magnitudeDb(cascadeResponse(crossoverSections(half, side, sampleRateHz), axis));
  const wanted = responseOf(crossover);
  const beyond = (frequencyHz: number) =>
    side === "high-pass" ? frequencyHz < crossover.frequencyHz : frequencyHz > crossover.frequencyHz;
  const ranked = candidates(crossover, ability, sampleRateHz)
    .map((half) => {
      const response = responseOf(half);
      let off = 0;
      let leak = 0;
      axis.frequenciesHz.forEach((frequencyHz, k) => {
        const change = response[k]! - wanted[k]!;
        if (wanted[k]! > COMPARED_DB || response[k]! > COMPARED_DB) off = Math.max(off, Math.abs(change));
        if (beyond(frequencyHz) && response[k]! > HARMFUL_DB) leak = Math.max(leak, change);
      });
      return { half, off, leak };
    })
    .sort((a, b) => a.off - b.off || a.half.order - b.half.order);
  const nearest = ranked.slice(0, SUBSTITUTES_MAX);
  const harmless = ranked.find((candidate) => !isWeaker(candidate, input));
  const offered = harmless === undefined || nearest.includes(harmless) ? nearest : [...nearest, harmless];
  const digits = telling(offered.map(({ half }) => half));
  return offered.map(({ half, off, leak }) => ({
    crossover: half,
    option: optionOf(input, { half, off, leak, digits }),
  }));
}

/** Whether a driver is less protected: what gets through beyond the corner; of a high-pass also a lower order or corner. */
function isWeaker(
  { half, leak }: { readonly half: Crossover; readonly leak: number },
  { side, crossover }: Pick<SubstituteInput, "side" | "crossover">,
): boolean {
  const isLower =
    half.order < crossover.order ||
    Math.log2(half.frequencyHz / crossover.frequencyHz) < -LOWER_CORNER_OCTAVES;
  return leak > WEAKER_DB || (side === "high-pass" && isLower);
}

function candidates(
  crossover: Crossover,
  ability: CrossoverAbility,
  sampleRateHz: number,
): readonly Crossover[] {
  const { below, above } = gridNeighbours(ability.frequencyHz, crossover.frequencyHz);
  const corners = [...new Set([below, above])].filter(
    (corner) => corner !== undefined && corner < sampleRateHz / 2,
  ) as number[];
  return ability.families.flatMap(({ family, orders, normalization }) =>
    orders.flatMap((order) =>
      corners.map((frequencyHz) => ({
        family,
        order,
        frequencyHz,
        ...(family === "bessel"
          ? { normalization: normalization ?? crossover.normalization ?? ("phase" as const) }
          : {}),
      })),
    ),
  );
}

/** Digits of a frequency as it is printed; more only where two corners could not be told apart. */
const PRINTED_DIGITS = 4;
const DIGITS_MAX = 15;

function telling(halves: readonly Crossover[]): number {
  for (let digits = PRINTED_DIGITS; digits < DIGITS_MAX; digits += 1) {
    if (new Set(halves.map((half) => idOf(half, digits))).size === halves.length) return digits;
  }
  return DIGITS_MAX;
}

function idOf({ family, order, frequencyHz }: Crossover, digits: number): string {
  return `${family}-${order}-at-${Number(frequencyHz.toPrecision(digits))}`;
}

interface Offered {
  readonly half: Crossover;
  /** Largest difference of the responses in dB. */
  readonly off: number;
  /** How much more it lets through beyond its corner, in dB. */
  readonly leak: number;
  readonly digits: number;
}

function optionOf(input: SubstituteInput, { half, off, leak, digits }: Offered): QuestionOption {
  const sum = sumNumbers(input, half);
  const weaker = isWeaker({ half, leak }, input);
  const meets =
    sum === undefined
      ? ""
      : ` With its neighbour set alike the sum ripples by ${printDb(sum.rippleDb)} (now ${printDb(sum.rippleNowDb)}), and the ways meet ${Math.round(Math.abs(sum.phaseDifferenceDeg))}° apart${sum.invert ? "; with this pair one polarity should be turned" : ""}.`;
  return {
    id: idOf(half, digits),
    words:
      digits === PRINTED_DIGITS
        ? `${crossoverInPlan(half)}.`
        : `${crossoverInPlan(half)} (${Number(half.frequencyHz.toPrecision(digits))} Hz).`,
    consequence: `Its response differs by up to ${printDb(off)}.${
      weaker ? ` ${weakerWords(half, leak, input.crossover)}: the driver is less protected.` : ""
    }${meets}`,
    numbers: { maxChangeDb: figure(off, 3), leakDb: figure(Math.max(0, leak), 3), ...(sum ?? {}) },
    ...(weaker ? { weakensProtection: true } : {}),
    sets: { crossover: half },
  };
}

function weakerWords(half: Crossover, leak: number, crossover: Crossover): string {
  if (leak > WEAKER_DB) return `It lets through up to ${printDb(leak)} more beyond its corner`;
  return half.order < crossover.order ? "It is less steep" : "Its corner is lower";
}

/** How the ways would meet at this crossover, with the neighbour's half set to the same filter. */
function sumNumbers(
  { configuration, output, side, crossover, sampleRateHz }: SubstituteInput,
  half: Crossover,
) {
  const { feeds } = output;
  if (feeds.kind !== "loudspeaker") return undefined;
  const meet = (substitute: Crossover) => {
    const replace = (other: Output): Output => {
      const key = (other.id === output.id) === (side === "high-pass") ? "highPass" : "lowPass";
      const present = other[key];
      if (other.id !== output.id && !isSame(present, crossover)) return other;
      return { ...other, [key]: substitute };
    };
    const ways = configuration.outputs.filter(
      (other) => other.feeds.kind === "loudspeaker" && other.feeds.loudspeakerId === feeds.loudspeakerId,
    );
    if (ways.length < 2) return undefined;
    const around = {
      fromHz: crossover.frequencyHz / 2 ** OCTAVES,
      toHz: crossover.frequencyHz * 2 ** OCTAVES,
      belowHz: sampleRateHz / 2,
    };
    const sound = {
      ...configuration,
      unit: { ...configuration.unit, sampleRateHz },
      presets: [],
      equalizations: [],
      outputs: ways.map((way) => ({ ...replace(way), filters: [], fir: undefined })),
      loudspeakers: configuration.loudspeakers.filter(({ id }) => id === feeds.loudspeakerId),
    };
    const responses = acousticResponses(sound, { frequenciesHz: frequencyGrid(around) });
    const pairs = loudspeakerSums(responses, { of: "crossovers" })[0]?.pairs ?? [];
    return pairs.find((pair) => (side === "high-pass" ? pair.upperWayId : pair.lowerWayId) === feeds.wayId)
      ?.crossing;
  };
  const now = meet(crossover);
  const then = meet(half);
  if (now === undefined || then === undefined) return undefined;
  return {
    rippleDb: figure(then.rippleDb, 3),
    rippleNowDb: figure(now.rippleDb, 3),
    sumDb: figure(then.sumDb, 3),
    phaseDifferenceDeg: figure(then.phaseDifferenceDeg, 0),
    invert: then.flatter === "inverted",
  };
}

function isSame(a: Crossover | undefined, b: Crossover): boolean {
  return a !== undefined && a.family === b.family && a.order === b.order && a.frequencyHz === b.frequencyHz;
}
