import type { FilterResponse, OutputResponse } from "../acoustics/index.ts";
import type { PathDeviation, PathReason, ProofTolerances } from "../model/index.ts";
import type { DelayChanges } from "./delays.ts";
import type { CompareSound } from "./deviation.ts";
import type { Decided } from "./given-up.ts";
import type { JudgedPath } from "./groups.ts";
import { isWhole, type PathPair, type PathPlace, type PathSide, type WholePair } from "./path-pairs.ts";
import { graded, type Judgement, judgePath } from "./path-verdict.ts";
import { EQUAL } from "./tolerances.ts";

/** An output of the old configuration as it has to be now. */
export interface ExpectedOutput {
  /** Key of its responses in the comparison of sounds. */
  readonly id: string;
  readonly filters: OutputResponse["filters"];
  /** Whether somebody decided on its filters. */
  readonly decided: boolean;
}

export interface Judging {
  readonly compareSound: CompareSound;
  readonly delays: DelayChanges;
  readonly tolerances: ProofTolerances;
  readonly decisions: Decided;
  /** The output that feeds the same in the old configuration, by feed; undefined: none does. */
  readonly expectedOutput: (feedId: string) => ExpectedOutput | undefined;
  /** What an EQ set of the old configuration does to a program channel (label). */
  readonly equalizerOf: (
    presetId: string,
    channel: string,
    equalizationId?: string,
  ) => FilterResponse | undefined;
}

/** Gives every path its verdict. */
export function judgePaths(pairs: readonly PathPair[], judging: Judging): readonly JudgedPath[] {
  return pairs.map((pair) => {
    const { place } = pair;
    if (!isWhole(pair)) return { place, ...judgeHalf(pair, judging) };
    const through = pair.after.place.channel;
    return {
      place,
      ...(through !== place.channel && { channelAfter: through }),
      ...(judgeMute(pair, judging.decisions) ?? judgeSound(pair, judging)),
    };
  });
}

function judgeHalf(pair: PathPair, judging: Judging): Judgement {
  const { place, before, lacks } = pair;
  const { decisions } = judging;
  const reasons = lacks === undefined ? [] : [lacks];
  if (before !== undefined && decisions.missing(place)) return { verdict: "left-out", reasons };
  const verdict = before === undefined ? "new" : "missing";
  const covered = before === undefined ? decisions.added(place) : decisions.elsewhere(place);
  if (!covered) return { verdict, reasons };
  const undecided = [...levelFaults(place, judging), ...filterFaults(pair, judging)];
  return undecided.length === 0
    ? { verdict: "changed-by-decision", reasons }
    : { verdict, reasons: [...reasons, ...undecided] };
}

/** What is not as loud as it has to be where others play what a path played. */
function levelFaults(place: PathPlace, { decisions, tolerances }: Judging): readonly PathReason[] {
  const seatsDb = atSeats(place, decisions);
  if (seatsDb !== undefined) return isAsLoud(seatsDb, tolerances) ? [] : ["level"];
  if (place.feed.loudspeakerId !== undefined || !decisions.stillReached(place)) return ["level"];
  return isAsLoudInFeed(place, decisions, tolerances) ? [] : ["level"];
}

/** What a new path does otherwise than the equalizer and the output through which it has to play. */
function filterFaults({ place, after }: PathPair, judging: Judging): readonly PathReason[] {
  if (after === undefined) return [];
  const { compareSound, decisions, equalizerOf, expectedOutput, tolerances } = judging;
  const output = expectedOutput(place.feed.id);
  const equalization = equalizerOf(
    place.presetId,
    decisions.equalizedAs(after.place.channel),
    decisions.equalizer(place)?.equalizationId,
  );
  if (output === undefined || equalization === undefined) return [];
  const expected = {
    ...after,
    path: { ...after.path, equalization, outputId: output.id, output: output.filters },
  };
  const sound = compareSound(expected, after);
  const { verdict, reasons } = judgePath({ ...sound, delayMs: 0, polarity: "same" }, tolerances);
  return verdict === "audible" ? reasons : [];
}

/** A path that is silent on one side only. One that is silent on both is compared as if it played. */
function judgeMute({ place, before, after }: WholePair, decisions: Decided): Judgement | undefined {
  if (before.path.muted === after.path.muted) return undefined;
  if (before.path.muted)
    return { verdict: decisions.added(place) ? "changed-by-decision" : "new", reasons: ["unmuted"] };
  const decided = decisions.missing(place) || decisions.muted(place.feed.id);
  return { verdict: decided ? "left-out" : "missing", reasons: ["muted"] };
}

function judgeSound(pair: WholePair, judging: Judging): Judgement & { readonly deviation: PathDeviation } {
  const { compareSound, delays, tolerances, decisions } = judging;
  const { before, after, place } = pair;
  const timing = {
    delayMs: delays.ofPathMs(pair),
    polarity: before.path.polarity === after.path.polarity ? ("same" as const) : ("opposite" as const),
  };
  const seatsDb = atSeats(place, decisions);
  const deviation = {
    ...compareSound(before, after),
    ...timing,
    ...(seatsDb !== undefined && { seatsDb }),
  };
  const judgement = judgePath(deviation, tolerances);
  const expected = expectedPath(pair, judging);
  if (expected === undefined) return { ...judgement, deviation };
  // What had to change is no fault, and what had to and did not is one.
  const rest = {
    ...compareSound(expected.before, expected.after),
    delayMs: timing.delayMs - decisions.laterMs(place.feed.id),
    polarity:
      expected.before.path.polarity === after.path.polarity ? ("same" as const) : ("opposite" as const),
  };
  const decided = judgePath(rest, tolerances);
  const loud =
    seatsDb === undefined
      ? !decisions.throughOthers(place) || isAsLoudInFeed(place, decisions, tolerances)
      : isAsLoud(seatsDb, tolerances);
  if (!loud) {
    const others = decided.verdict === "audible" ? decided.reasons : [];
    return { verdict: "audible", reasons: [...new Set<PathReason>(["level", ...others])], deviation };
  }
  if (decided.verdict === "audible") {
    return {
      verdict: "audible",
      reasons: [...decided.reasons, "not-as-decided"],
      deviation: { ...rest, ...(seatsDb !== undefined && { seatsDb }) },
    };
  }
  return judgement.verdict === "audible"
    ? { verdict: "changed-by-decision", reasons: judgement.reasons, deviation }
    : { ...judgement, deviation };
}

/** Change of level at the seats, where it was decided that loudspeakers play together. */
function atSeats({ presetId, sourceChannelId, feed }: PathPlace, { seats }: Decided): number | undefined {
  return feed.loudspeakerId === undefined
    ? undefined
    : seats.changeDb({ presetId, sourceChannelId, loudspeakerId: feed.loudspeakerId });
}

function isAsLoud(seatsDb: number, tolerances: ProofTolerances): boolean {
  return graded(seatsDb, EQUAL.db, tolerances.seatsDb) !== "audible";
}

function isAsLoudInFeed(place: PathPlace, { feedLevels }: Decided, { seatsDb }: ProofTolerances): boolean {
  const { changeDb, allowedDb } = feedLevels(place);
  return Math.abs(changeDb) <= allowedDb + seatsDb;
}

/**
 * The two sides of a path as they have to be alike by what was decided: the old one with decided filters, equalizer and
 * polarity, the new one without a change of level that is judged elsewhere. Undefined: nothing was decided on it.
 */
function expectedPath(
  { before, after, place }: WholePair,
  { decisions, equalizerOf, expectedOutput }: Judging,
): { readonly before: PathSide; readonly after: PathSide } | undefined {
  const output = expectedOutput(place.feed.id);
  const other = decisions.equalizer(place);
  const polarity = decisions.polarity(place.feed.id);
  const level = atSeats(place, decisions) !== undefined || decisions.throughOthers(place);
  const later = decisions.laterMs(place.feed.id) !== 0;
  const filters = output?.decided === true;
  if (!filters && !level && other === undefined && polarity === undefined && !later) return undefined;
  const equalization =
    other && equalizerOf(place.presetId, other.channel ?? place.channel, other.equalizationId);
  return {
    before: {
      ...before,
      path: {
        ...before.path,
        ...(equalization !== undefined && { equalization }),
        ...(filters && { outputId: output.id, output: output.filters }),
        ...(polarity !== undefined && { polarity }),
      },
    },
    after: level ? { ...after, levelDb: expectedLevel(before, after, place, decisions) } : after,
  };
}

/** The old level, and by how much the new one changed otherwise than that of the loudspeaker's first way. */
function expectedLevel(before: PathSide, after: PathSide, place: PathPlace, { seats }: Decided): number {
  const { loudspeakerId } = place.feed;
  if (loudspeakerId === undefined) return before.levelDb;
  const at = { ...place, loudspeakerId };
  const changeDb = after.levelDb - before.levelDb;
  return before.levelDb + changeDb - (seats.firstWayChangeDb(at) ?? changeDb);
}
