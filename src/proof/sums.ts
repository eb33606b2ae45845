import {
  type AcousticResponses,
  type FilterResponse,
  filterResponse,
  type LoudspeakerSum,
  loudspeakerSums,
  type OutputResponse,
} from "../acoustics/index.ts";
import { wrapDeg } from "../base/units/index.ts";
import type { Configuration, CrossoverProof, Output, ProofTolerances, SumProof } from "../model/index.ts";
import type { ComparisonGrid } from "./frequencies.ts";
import type { Decided } from "./given-up.ts";
import { compareVerdicts, graded, worstVerdict } from "./path-verdict.ts";
import { round } from "./round.ts";
import type { ScreenNames } from "./screen-names.ts";
import { EQUAL } from "./tolerances.ts";

export interface SumsOptions {
  readonly names: ScreenNames;
  readonly grid: ComparisonGrid;
  readonly tolerances: ProofTolerances;
  readonly decisions: Decided;
  /** Outputs of the old configuration on whose filters somebody decided, as decided; see outputsAsDecided. */
  readonly asDecided: ReadonlyMap<string, OutputResponse>;
}

interface Side {
  readonly configuration: Configuration;
  readonly responses: AcousticResponses;
}

/**
 * Compares the sum of the ways of every loudspeaker that has more than one.
 *
 * Before: the crossovers with ideal drivers, as if gain, delay and driver EQ had already made the drivers equal in level,
 * flat and in time; after: the same drivers, with everything that changed since. So what the settings make up for in
 * the room, which nobody knows here, cancels.
 */
export function compareSums(before: Side, after: Side, options: SumsOptions): readonly SumProof[] {
  const { names, decisions } = options;
  const changes = outputChanges(before, after, { names, decisions });
  const old = loudspeakerSums(before.responses, { of: "crossovers" });
  const byKey = (responses: AcousticResponses) =>
    new Map(loudspeakerSums(responses, { of: "settings" }).map((sum) => [sumKey(sum), sum]));
  const now = byKey(changedResponses(before, after.responses, changes));
  const asDecided = sumsAsDecided(before, options);
  const expected = asDecided && byKey(asDecided);
  const sums = old.flatMap((sum) => {
    if (sum.ways.length < 2) return [];
    const silent = sum.ways.filter(({ outputIds }) =>
      outputIds.every((id) => !changes.get(id)?.levelsDb.has(sum.channelId)),
    );
    const channel = names.before.channels.get(sum.channelId)!;
    const context = { ...options, channel, before };
    return [
      silent.length > 0
        ? silentSum(sum, silent, context)
        : sumProof(sum, { now: now.get(sumKey(sum))!, expected: expected?.get(sumKey(sum)) }, context),
    ];
  });
  return joined(sums);
}

function sumKey({ loudspeakerId, channelId }: LoudspeakerSum): string {
  return JSON.stringify([loudspeakerId, channelId]);
}

/** What became of one output: after against before. */
interface OutputChange {
  readonly after: Output;
  /** Change of level in dB of every program channel that it still plays, by the channel's old id. */
  readonly levelsDb: ReadonlyMap<string, number>;
  readonly delayMs: number;
}

/** By id of the old output; one that is fed no more, or silent now, is left out. */
function outputChanges(
  before: Side,
  after: Side,
  { names, decisions }: Pick<SumsOptions, "names" | "decisions">,
): ReadonlyMap<string, OutputChange> {
  const partners = new Map(
    after.configuration.outputs.map((output) => [names.after.feeds.get(output.id)?.id, output]),
  );
  const changes = new Map<string, OutputChange>();
  for (const output of before.configuration.outputs) {
    const feedId = names.before.feeds.get(output.id)?.id;
    const partner = feedId === undefined ? undefined : partners.get(feedId);
    if (partner === undefined || (partner.mute && !output.mute)) continue;
    const shares = new Map(
      [...after.responses.outputs.get(partner.id)!.mixDb].map(([channelId, gainDb]) => [
        names.after.channels.get(channelId),
        gainDb,
      ]),
    );
    const levelsDb = [...before.responses.outputs.get(output.id)!.mixDb].flatMap(([channelId, gainDb]) => {
      const label = names.before.channels.get(channelId)!;
      const share = [label, ...decisions.foldedInto(label)].map((name) => shares.get(name)).find(isKnown);
      return share === undefined
        ? []
        : [[channelId, share + partner.gainDb - gainDb - output.gainDb] as const];
    });
    changes.set(output.id, {
      after: partner,
      levelsDb: new Map(levelsDb),
      delayMs: partner.delayMs - output.delayMs,
    });
  }
  return changes;
}

/** The old configuration with what somebody decided on filters and polarity; undefined where nothing was. */
function sumsAsDecided(
  before: Side,
  { names, decisions, asDecided }: SumsOptions,
): AcousticResponses | undefined {
  const polarityOf = ({ id, polarity }: Output) => {
    const feedId = names.before.feeds.get(id)?.id;
    return (feedId === undefined ? undefined : decisions.polarity(feedId)) ?? polarity;
  };
  const { outputs } = before.configuration;
  const isDecided = (output: Output) => asDecided.has(output.id) || polarityOf(output) !== output.polarity;
  if (!outputs.some(isDecided)) return undefined;
  const changes = outputs.map((output): [string, OutputChange] => {
    const channelIds = [...before.responses.outputs.get(output.id)!.mixDb.keys()];
    const levelsDb = new Map(channelIds.map((id) => [id, 0]));
    return [output.id, { after: { ...output, polarity: polarityOf(output) }, levelsDb, delayMs: 0 }];
  });
  const responses = new Map([...before.responses.outputs, ...asDecided]);
  return changedResponses(before, { ...before.responses, outputs: responses }, new Map(changes));
}

function isKnown(value: number | undefined): value is number {
  return value !== undefined;
}

/** The old outputs with their crossovers and, in place of their settings, what changed of them. */
function changedResponses(
  { responses, configuration }: Side,
  after: AcousticResponses,
  changes: ReadonlyMap<string, OutputChange>,
): AcousticResponses {
  const sharers = outputsPerWay(configuration);
  const outputs = new Map(responses.outputs);
  const changed = configuration.outputs.map((output) => {
    const change = changes.get(output.id);
    if (change === undefined) return output;
    const old = responses.outputs.get(output.id)!;
    outputs.set(output.id, {
      crossover: old.crossover,
      filters: filterResponse(changedCrossover(old, after.outputs.get(change.after.id)!.filters)),
      mixDb: change.levelsDb,
    });
    return {
      ...output,
      polarity: change.after.polarity,
      gainDb: -20 * Math.log10(sharers(output)),
      delayMs: change.delayMs,
    };
  });
  return { ...responses, configuration: { ...configuration, outputs: changed }, outputs };
}

/** How many outputs feed the same way: their mean counts, as before. */
function outputsPerWay({ outputs }: Configuration): (output: Output) => number {
  const nameOf = ({ feeds }: Output) =>
    feeds.kind === "loudspeaker" ? JSON.stringify([feeds.loudspeakerId, feeds.wayId]) : "";
  return (output) => outputs.filter((other) => nameOf(other) === nameOf(output)).length;
}

/** The old crossover times the change of all filters: crossover · after / before. */
function changedCrossover({ crossover, filters }: OutputResponse, after: FilterResponse) {
  const re = new Float64Array(filters.re.length);
  const im = new Float64Array(filters.re.length);
  for (let k = 0; k < re.length; k++) {
    const power = filters.re[k]! ** 2 + filters.im[k]! ** 2;
    // Where the old output passed nothing at all, its driver EQ cannot be told; it counts as none.
    const ratioRe =
      power > 0 ? (crossover.re[k]! * filters.re[k]! + crossover.im[k]! * filters.im[k]!) / power : 1;
    const ratioIm =
      power > 0 ? (crossover.im[k]! * filters.re[k]! - crossover.re[k]! * filters.im[k]!) / power : 0;
    re[k] = ratioRe * after.re[k]! - ratioIm * after.im[k]!;
    im[k] = ratioRe * after.im[k]! + ratioIm * after.re[k]!;
  }
  return { re, im };
}

interface SumContext extends SumsOptions {
  readonly channel: string;
  readonly before: Side;
}

function placeOfSum({ loudspeakerId }: LoudspeakerSum, { channel, before }: SumContext) {
  const loudspeaker = before.configuration.loudspeakers.find(({ id }) => id === loudspeakerId);
  return { loudspeakerId, label: loudspeaker?.label ?? loudspeakerId, channels: [channel] };
}

/** A loudspeaker of which some ways no longer play. */
function silentSum(sum: LoudspeakerSum, silent: LoudspeakerSum["ways"], context: SumContext): SumProof {
  const { decisions, names } = context;
  const feedsOf = ({ outputIds }: (typeof silent)[number]) =>
    outputIds.map((id) => names.before.feeds.get(id)?.id);
  const isDecided =
    decisions.loudspeaker(sum.loudspeakerId) ||
    decisions.channel(context.channel) ||
    silent.every((way) => feedsOf(way).every(decisions.muted));
  return {
    ...placeOfSum(sum, context),
    verdict: isDecided ? "left-out" : "missing",
    crossovers: crossoverProofs(sum, undefined),
  };
}

function sumProof(
  old: LoudspeakerSum,
  { now, expected }: { readonly now: LoudspeakerSum; readonly expected: LoudspeakerSum | undefined },
  context: SumContext,
): SumProof {
  const found = changeFrom(old, now, context);
  const decided = expected === undefined ? undefined : changeFrom(expected, now, context);
  const excused = found.verdict === "audible" && decided !== undefined && decided.verdict !== "audible";
  const { verdict, change } = decided?.verdict === "audible" ? decided : found;
  return {
    ...placeOfSum(old, context),
    verdict: excused ? "changed-by-decision" : verdict,
    ...change,
    crossovers: crossoverProofs(old, now),
  };
}

/** How far the sum is from what it was, or from what it has to be. */
function changeFrom(reference: LoudspeakerSum, now: LoudspeakerSum, { tolerances, grid }: SumContext) {
  const change = sumChange(reference, now, grid);
  const grades = [
    graded(change.changeDb, EQUAL.db, tolerances.sumDb),
    ...crossoverProofs(reference, now).map(({ phaseBeforeDeg, phaseAfterDeg }) =>
      phaseAfterDeg === undefined
        ? ("audible" as const)
        : graded(wrapDeg(phaseAfterDeg - phaseBeforeDeg), EQUAL.deg, tolerances.crossoverPhaseDeg),
    ),
  ];
  return { verdict: worstVerdict(grades) as (typeof grades)[number], change };
}

function crossoverProofs(old: LoudspeakerSum, now: LoudspeakerSum | undefined): CrossoverProof[] {
  return old.pairs.flatMap(({ lowerWayId, upperWayId, crossing }) => {
    if (crossing === undefined) return [];
    const after = now?.pairs.find((pair) => pair.lowerWayId === lowerWayId && pair.upperWayId === upperWayId);
    const proof = {
      lowerWayId,
      upperWayId,
      frequencyBeforeHz: round(crossing.frequencyHz, 1),
      rippleBeforeDb: round(crossing.rippleDb, 3),
      phaseBeforeDeg: round(crossing.phaseDifferenceDeg, 2),
    };
    if (after?.crossing === undefined) return [proof];
    return [
      {
        ...proof,
        frequencyAfterHz: round(after.crossing.frequencyHz, 1),
        rippleAfterDb: round(after.crossing.rippleDb, 3),
        phaseAfterDeg: round(after.crossing.phaseDifferenceDeg, 2),
      },
    ];
  });
}

/** Sums that lie further than this below the loudest part count as that far below. */
const FLOOR_BELOW_LOUDEST_DB = 40;

/**
 * The largest change of the sum against its mean change: a change of level that all ways share belongs to the paths,
 * where other stages can make up for it.
 */
function sumChange(
  old: LoudspeakerSum,
  now: LoudspeakerSum,
  { frequenciesHz, octaves, bandStart, bandEnd }: ComparisonGrid,
): { readonly changeDb: number; readonly changeAtHz: number } {
  const loudest = (values: Float64Array) => values.reduce((most, db) => Math.max(most, db));
  const loudestBefore = loudest(old.sum.magnitudeDb);
  const loudestAfter = loudest(now.sum.magnitudeDb);
  const above = (db: number, reference: number) => Math.max(-FLOOR_BELOW_LOUDEST_DB, db - reference);
  const points = Array.from({ length: bandEnd - bandStart }, (_, index) => {
    const k = bandStart + index;
    const was = above(old.sum.magnitudeDb[k]!, loudestBefore);
    const is = above(now.sum.magnitudeDb[k]!, loudestAfter);
    return { k, weight: 10 ** (Math.max(was, is) / 20), db: is - was };
  });
  const share = ({ k, weight }: (typeof points)[number]) => octaves[k]! * weight * weight;
  const width = points.reduce((sum, point) => sum + share(point), 0);
  const mean = points.reduce((sum, point) => sum + share(point) * point.db, 0) / width;
  let changeDb = 0;
  let changeAtHz = frequenciesHz[bandStart]!;
  for (const { k, weight, db } of points) {
    const weighted = weight * (db - mean);
    if (Math.abs(weighted) > Math.abs(changeDb)) {
      changeDb = weighted;
      changeAtHz = frequenciesHz[k]!;
    }
  }
  return { changeDb: round(changeDb, 3), changeAtHz: round(changeAtHz, 1) };
}

/** Joins the sums of one loudspeaker that came out the same for several program channels; the most serious come first. */
function joined(sums: readonly SumProof[]): readonly SumProof[] {
  const byResult = new Map<string, SumProof>();
  for (const sum of sums) {
    const { channels, ...result } = sum;
    const key = JSON.stringify(result);
    const known = byResult.get(key);
    byResult.set(key, known === undefined ? sum : { ...known, channels: [...known.channels, ...channels] });
  }
  return [...byResult.values()].sort((a, b) => compareVerdicts(a.verdict, b.verdict));
}
