import type { FilterResponse } from "../acoustics/index.ts";
import type { PathDeviation, ProofTolerances } from "../model/index.ts";
import type { DelayChanges } from "./delays.ts";
import type { CompareSound, SoundDeviation } from "./deviation.ts";
import type { Decided } from "./given-up.ts";
import type { JudgedPath } from "./groups.ts";
import { isWhole, type PathPair, type PathPlace, type PathSide, type WholePair } from "./path-pairs.ts";
import { graded, type Judgement, judgePath } from "./path-verdict.ts";
import { EQUAL } from "./tolerances.ts";

export interface Judging {
  readonly compareSound: CompareSound;
  readonly delays: DelayChanges;
  readonly tolerances: ProofTolerances;
  readonly decisions: Decided;
  /** An equalizer of the old configuration in place of a path's own: of another EQ set, of another channel (label). */
  readonly equalizerOf: (
    path: PathSide,
    other: { readonly equalizationId?: string; readonly channel?: string },
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

function judgeHalf({ place, before, lacks }: PathPair, { decisions, tolerances }: Judging): Judgement {
  const reasons = lacks === undefined ? [] : [lacks];
  if (before !== undefined && decisions.missing(place)) return { verdict: "given-up", reasons };
  const verdict = before === undefined ? "new" : "missing";
  const covered = before === undefined ? decisions.added(place) : decisions.elsewhere(place);
  if (!covered) return { verdict, reasons };
  const seatsDb = atSeats(place, decisions);
  if (seatsDb === undefined) {
    const heard =
      before === undefined || (place.feed.loudspeakerId === undefined && decisions.stillReached(place));
    return { verdict: heard ? "given-up" : verdict, reasons };
  }
  return isAsLoud(seatsDb, tolerances)
    ? { verdict: "given-up", reasons }
    : { verdict, reasons: [...reasons, "level"] };
}

/** A path that is silent on one side only. One that is silent on both is compared as if it played. */
function judgeMute({ place, before, after }: WholePair, decisions: Decided): Judgement | undefined {
  if (before.path.muted === after.path.muted) return undefined;
  if (before.path.muted)
    return { verdict: decisions.added(place) ? "given-up" : "new", reasons: ["unmuted"] };
  const decided = decisions.missing(place) || decisions.muted(place.feed.id);
  return { verdict: decided ? "given-up" : "missing", reasons: ["muted"] };
}

function judgeSound(
  pair: WholePair,
  { compareSound, delays, tolerances, decisions, equalizerOf }: Judging,
): Judgement & { readonly deviation: PathDeviation } {
  const timing = {
    delayMs: delays.ofPathMs(pair),
    polarity:
      pair.before.path.polarity === pair.after.path.polarity ? ("same" as const) : ("opposite" as const),
  };
  const seatsDb = atSeats(pair.place, decisions);
  const deviation = {
    ...compareSound(pair.before, pair.after),
    ...timing,
    ...(seatsDb !== undefined && { seatsDb }),
  };
  const judgement = judgePath(deviation, tolerances);
  const laterMs = decisions.laterMs(pair.place.feed.id);
  // What had to change is no fault, and what had to and did not is one.
  if (judgement.verdict !== "audible" && seatsDb === undefined && laterMs === 0) {
    return { ...judgement, deviation };
  }
  const undecided = undecidedSound(pair, { compareSound, decisions, equalizerOf });
  if (undecided === undefined) return { ...judgement, deviation };
  const polarity = decisions.polarity(pair.place.feed.id) ? "same" : timing.polarity;
  const rest = judgePath({ ...undecided, delayMs: timing.delayMs - laterMs, polarity }, tolerances);
  if (seatsDb !== undefined && !isAsLoud(seatsDb, tolerances)) {
    return {
      verdict: "audible",
      reasons: ["level", ...rest.reasons.filter((reason) => reason !== "level")],
      deviation,
    };
  }
  if (rest.verdict === "audible") return { ...rest, deviation };
  return judgement.verdict === "audible"
    ? { verdict: "given-up", reasons: judgement.reasons, deviation }
    : { ...judgement, deviation };
}

/** Change of level at the seats, where it was decided that loudspeakers play together. */
function atSeats({ presetId, sourceChannelId, feed }: PathPlace, { seats }: Decided): number | undefined {
  return feed.loudspeakerId === undefined
    ? undefined
    : seats.changeDb({ presetId, sourceChannelId, loudspeakerId: feed.loudspeakerId });
}

/** The deviation without what was decided: crossovers, FIR filter, equalizer, level. Undefined where nothing was. */
function undecidedSound(
  { before, after, place }: WholePair,
  { compareSound, decisions, equalizerOf }: Pick<Judging, "compareSound" | "decisions" | "equalizerOf">,
): SoundDeviation | undefined {
  const crossover = decisions.crossover(place.feed.id);
  const seatsDb = atSeats(place, decisions);
  const fir = decisions.fir(place.feed.id);
  const other = decisions.equalizer(place);
  const polarity = decisions.polarity(place.feed.id);
  const level = seatsDb !== undefined || decisions.level(place);
  const later = decisions.laterMs(place.feed.id) !== 0;
  if (!crossover && !level && !fir && other === undefined && !polarity && !later) return undefined;
  const equalization = other === undefined ? undefined : equalizerOf(before, other);
  const reference =
    equalization === undefined ? before : { ...before, path: { ...before.path, equalization } };
  const filters = crossover ? "without-crossovers" : "all";
  const now = level ? { ...after, levelDb: expectedLevel(before, after, place, decisions) } : after;
  const sound = compareSound(reference, now, filters);
  if (!fir) return sound;
  // A FIR filter can be anything: of what is left without it, nothing can be told.
  return {
    ...sound,
    responseDb: 0,
    responseRmsDb: 0,
    levelDb: 0,
    lowEdgeDb: 0,
    highEdgeDb: 0,
    phaseDeg: 0,
  };
}

function isAsLoud(seatsDb: number, tolerances: ProofTolerances): boolean {
  return graded(seatsDb, EQUAL.db, tolerances.seatsDb) !== "audible";
}

/** The old level, and by how much the new one changed otherwise than that of the loudspeaker's first way. */
function expectedLevel(before: PathSide, after: PathSide, place: PathPlace, { seats }: Decided): number {
  const { loudspeakerId } = place.feed;
  if (loudspeakerId === undefined) return before.levelDb;
  const at = { ...place, loudspeakerId };
  const changeDb = after.levelDb - before.levelDb;
  return before.levelDb + changeDb - (seats.firstWayChangeDb(at) ?? changeDb);
}
