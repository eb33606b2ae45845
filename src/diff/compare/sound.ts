import {
  type AcousticConfiguration,
  type AcousticOutput,
  type AcousticResponses,
  acousticResponses,
  compareResponses,
  equalizationResponse,
  type FilterResponse,
  frequencyGrid,
  type LoudspeakerSum,
  loudspeakerSums,
  pinkNoiseLevelChangeDb,
  type UnitAcoustics,
} from "../../acoustics/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { ComparisonCurve, Configuration, Output, ResponseEffect } from "../../model/index.ts";
import { phaseOnly } from "./phase-only.ts";

/** The same thing in both documents; undefined where one lacks it or it cannot be computed. */
export interface Both<Value> {
  readonly before: Value | undefined;
  readonly after: Value | undefined;
}

/** Two responses compared, with the curve to draw. */
export interface ComparedResponse {
  readonly effect: ResponseEffect;
  readonly curve: ComparisonCurve;
}

/** Responses of both documents, computed when asked for and only where asked for. */
export interface Sound {
  /** The equalizer of a program channel in an EQ set. */
  readonly equalizer: (setId: string, channelId: string, title: string) => ComparedResponse | undefined;
  /** What a program channel gets when one EQ set of the second document takes the place of one of the first. */
  readonly equalizerExchanged: (
    setBefore: string,
    setAfter: string,
    channelId: string,
  ) => ResponseEffect | undefined;
  /** Driver EQ and FIR of an output, without its crossover. */
  readonly driverEq: (outputId: string, title: string) => ComparedResponse | undefined;
  /** The ways of a loudspeaker with ideal drivers that the settings before had made equal in level and time. */
  readonly loudspeaker: (loudspeakerId: string) => Both<LoudspeakerSum>;
  /** The same sums compared. */
  readonly loudspeakerChange: (loudspeakerId: string, title: string) => ComparedResponse | undefined;
}

export interface SoundOptions {
  readonly unitBefore?: UnitAcoustics;
  readonly unitAfter?: UnitAcoustics;
}

interface Side {
  readonly configuration: Configuration;
  readonly unit: UnitAcoustics | undefined;
}

/** Makes the responses of two documents available, at the frequencies that both can compute. */
export function soundOf(before: Configuration, after: Configuration, options: SoundOptions): Sound {
  const sides: Both<Side> & { readonly before: Side; readonly after: Side } = {
    before: { configuration: before, unit: options.unitBefore },
    after: { configuration: after, unit: options.unitAfter },
  };
  const belowHz = Math.min(before.unit.sampleRateHz, after.unit.sampleRateHz) / 2;
  const frequenciesHz = frequencyGrid({ belowHz });
  const both = <Value>(compute: (side: Side) => Value | undefined): Both<Value> => ({
    before: attempt(() => compute(sides.before)),
    after: attempt(() => compute(sides.after)),
  });
  const loudspeaker = remembered((id: string) =>
    both((side) => loudspeakerSum(side, sides.before, id, frequenciesHz)),
  );
  return {
    equalizer: (setId, channelId, title) => {
      const responses = both((side) => equalizer(side, setId, channelId, frequenciesHz));
      return filtersCompared(responses, frequenciesHz, { title, subject: "equalizer" });
    },
    equalizerExchanged: (setBefore, setAfter, channelId) => {
      const before = attempt(() => equalizer(sides.before, setBefore, channelId, frequenciesHz));
      const after = attempt(() => equalizer(sides.after, setAfter, channelId, frequenciesHz));
      return filtersCompared({ before, after }, frequenciesHz, { title: "", subject: "equalizer" })?.effect;
    },
    driverEq: (outputId, title) => {
      const responses = both((side) => driverEq(side, outputId, frequenciesHz));
      return filtersCompared(responses, frequenciesHz, { title, subject: "driver-eq" });
    },
    loudspeaker,
    loudspeakerChange: (id, title) => {
      const sums = loudspeaker(id);
      const levels = { before: sums.before?.sum.magnitudeDb, after: sums.after?.sum.magnitudeDb };
      const change = compared(levels, frequenciesHz, { title, subject: "loudspeaker" });
      return change && { ...change, curve: { ...change.curve, ways: wayCurves(sums) } };
    },
  };
}

/** What a setting that cannot be computed gives: nothing. Validation says what is wrong with it. */
function attempt<Value>(compute: () => Value | undefined): Value | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof BoothkeepError) return undefined;
    throw error;
  }
}

function remembered<Value>(compute: (key: string) => Value): (key: string) => Value {
  const known = new Map<string, Value>();
  return (key) => {
    const value = known.get(key) ?? compute(key);
    known.set(key, value);
    return value;
  };
}

/** Responses of just a few parts of a configuration. */
function responsesOf(
  { configuration, unit }: Side,
  parts: Partial<AcousticConfiguration>,
  frequenciesHz: Float64Array,
): AcousticResponses {
  const nothing = {
    sources: [],
    channels: [],
    equalizations: [],
    presets: [],
    outputs: [],
    loudspeakers: [],
  };
  return acousticResponses(
    { ...nothing, unit: configuration.unit, ...parts },
    { frequenciesHz, ...(unit === undefined ? {} : { unit }) },
  );
}

function equalizer(
  side: Side,
  setId: string,
  channelId: string,
  frequenciesHz: Float64Array,
): FilterResponse | undefined {
  const set = side.configuration.equalizations.find(({ id }) => id === setId);
  if (set === undefined) return undefined;
  const channels = set.channels.filter((channel) => channel.channelId === channelId);
  const responses = responsesOf(side, { equalizations: [{ id: setId, channels }] }, frequenciesHz);
  return equalizationResponse(responses, setId, channelId);
}

function driverEq(side: Side, outputId: string, frequenciesHz: Float64Array): FilterResponse | undefined {
  const output = side.configuration.outputs.find(({ id }) => id === outputId);
  if (output === undefined) return undefined;
  const { highPass: _highPass, lowPass: _lowPass, ...driver } = output;
  const bare = { ...driver, mix: [] };
  return responsesOf(side, { outputs: [bare] }, frequenciesHz).outputs.get(outputId)?.filters;
}

/**
 * The ways of a loudspeaker, as a program channel reaches them, with ideal drivers that the settings before had made
 * equal in level, flat and in time: before, the crossovers and polarities alone; after, also what gains and delays have
 * become against before. What drivers need of gain, delay and driver EQ is thus no difference by itself. For the channel
 * that reaches most of the ways.
 */
function loudspeakerSum(
  side: Side,
  base: Side,
  loudspeakerId: string,
  frequenciesHz: Float64Array,
): LoudspeakerSum | undefined {
  const { configuration } = side;
  const outputs = configuration.outputs
    .filter(({ feeds }) => feeds.kind === "loudspeaker" && feeds.loudspeakerId === loudspeakerId)
    .map((output) => againstBase(output, base.configuration));
  const loudspeakers = configuration.loudspeakers.filter(({ id }) => id === loudspeakerId);
  const parts = { channels: configuration.channels, outputs, loudspeakers };
  const sums = loudspeakerSums(responsesOf(side, parts, frequenciesHz));
  return sums.reduce<LoudspeakerSum | undefined>(
    (best, sum) => (best === undefined || sum.ways.length > best.ways.length ? sum : best),
    undefined,
  );
}

/** An output with only its crossover and polarity, and with gains and delay as differences from those before. */
function againstBase({ fir: _fir, ...output }: Output, { outputs }: Configuration): AcousticOutput {
  const base = outputs.find(({ id }) => id === output.id) ?? output;
  const mixBefore = new Map(base.mix.map(({ channelId, gainDb }) => [channelId, gainDb]));
  return {
    ...output,
    filters: [],
    gainDb: output.gainDb - base.gainDb,
    delayMs: output.delayMs - base.delayMs,
    mix: output.mix.map(({ channelId, gainDb }) => ({
      channelId,
      gainDb: gainDb - (mixBefore.get(channelId) ?? gainDb),
    })),
  };
}

/** Compares filters: their levels, and the phase where it alone differs. */
function filtersCompared(
  { before, after }: Both<FilterResponse>,
  frequenciesHz: Float64Array,
  of: Pick<ComparisonCurve, "title" | "subject">,
): ComparedResponse | undefined {
  const levels = { before: before?.magnitudeDb, after: after?.magnitudeDb };
  const change = compared(levels, frequenciesHz, of);
  if (change === undefined) return undefined;
  const phase = phaseOnly(before!, after!, { frequenciesHz, maxDb: change.effect.maxDb });
  return { ...change, effect: { ...change.effect, ...phase } };
}

function compared(
  { before, after }: Both<Float64Array>,
  frequenciesHz: Float64Array,
  of: Pick<ComparisonCurve, "title" | "subject">,
): ComparedResponse | undefined {
  if (before === undefined || after === undefined) return undefined;
  const { maxDb, maxAtHz, rmsDb } = compareResponses(
    { frequenciesHz, magnitudeDb: before },
    { frequenciesHz, magnitudeDb: after },
  );
  const levelDbC =
    pinkNoiseLevelChangeDb(frequenciesHz, after) - pinkNoiseLevelChangeDb(frequenciesHz, before);
  return {
    effect: {
      kind: "response",
      maxDb: round(maxDb),
      atHz: round(maxAtHz),
      rmsDb: round(rmsDb),
      levelDbC: round(levelDbC),
    },
    curve: {
      ...of,
      frequenciesHz: rounded(frequenciesHz),
      beforeDb: rounded(before),
      afterDb: rounded(after),
    },
  };
}

function wayCurves({ before, after }: Both<LoudspeakerSum>): NonNullable<ComparisonCurve["ways"]> {
  const ids = [...new Set([...(before?.ways ?? []), ...(after?.ways ?? [])].map(({ wayId }) => wayId))];
  const levels = (sum: LoudspeakerSum | undefined, id: string): readonly number[] =>
    rounded(sum?.ways.find(({ wayId }) => wayId === id)?.response.magnitudeDb ?? []);
  return ids.map((wayId) => ({ wayId, beforeDb: levels(before, wayId), afterDb: levels(after, wayId) }));
}

/** Three decimals: a thousandth of a dB is far below anything heard, and the same on every machine. */
function round(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}

function rounded(values: ArrayLike<number>): readonly number[] {
  return Array.from(values, round);
}
