import type { PathDeviation, ProofTolerances } from "../model/index.ts";
import type { DelayChanges } from "./delays.ts";
import type { CompareSound, SoundDeviation } from "./deviation.ts";
import type { Decided } from "./given-up.ts";
import type { JudgedPath } from "./groups.ts";
import { isWhole, type PathPair, type WholePair } from "./path-pairs.ts";
import { type Judgement, judgePath } from "./path-verdict.ts";

export interface Judging {
  readonly compareSound: CompareSound;
  readonly delays: DelayChanges;
  readonly tolerances: ProofTolerances;
  readonly decisions: Decided;
}

/** Gives every path its verdict. */
export function judgePaths(pairs: readonly PathPair[], judging: Judging): readonly JudgedPath[] {
  return pairs.map((pair) => {
    const { place } = pair;
    if (!isWhole(pair)) return { place, ...judgeHalf(pair, judging.decisions) };
    const through = pair.after.place.channel;
    return {
      place,
      ...(through !== place.channel && { channelAfter: through }),
      ...(judgeMute(pair, judging.decisions) ?? judgeSound(pair, judging)),
    };
  });
}

function judgeHalf({ place, before, lacks }: PathPair, decisions: Decided): Judgement {
  const reasons = lacks === undefined ? [] : [lacks];
  if (before === undefined) return { verdict: decisions.added(place) ? "given-up" : "new", reasons };
  return { verdict: decisions.missing(place) ? "given-up" : "missing", reasons };
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
  { compareSound, delays, tolerances, decisions }: Judging,
): Judgement & { readonly deviation: PathDeviation } {
  const timing = {
    delayMs: delays.ofPathMs(pair),
    polarity:
      pair.before.path.polarity === pair.after.path.polarity ? ("same" as const) : ("opposite" as const),
  };
  const deviation = { ...compareSound(pair.before, pair.after), ...timing };
  const judgement = judgePath(deviation, tolerances);
  if (judgement.verdict !== "audible") return { ...judgement, deviation };
  const undecided = undecidedSound(pair, compareSound, decisions);
  if (undecided === undefined) return { ...judgement, deviation };
  const rest = judgePath({ ...undecided, ...timing }, tolerances);
  if (rest.verdict === "audible") return { ...rest, deviation };
  return { verdict: "given-up", reasons: judgement.reasons, deviation };
}

/** The deviation without what was decided: crossovers, FIR filter, level. Undefined where nothing was. */
function undecidedSound(
  { before, after, place }: WholePair,
  compareSound: CompareSound,
  decisions: Decided,
): SoundDeviation | undefined {
  const crossover = decisions.crossover(place.feed.id);
  const level = decisions.level(place);
  const fir = decisions.fir(place.feed.id);
  if (!crossover && !level && !fir) return undefined;
  const filters = crossover ? "without-crossovers" : "all";
  const sound = compareSound(before, after, filters);
  // A FIR filter can be anything: of what is left without it, nothing can be told.
  if (fir)
    return {
      ...sound,
      responseDb: 0,
      responseRmsDb: 0,
      levelDb: 0,
      lowEdgeDb: 0,
      highEdgeDb: 0,
      phaseDeg: 0,
    };
  return level ? compareSound(before, { ...after, levelDb: after.levelDb - sound.levelDb }, filters) : sound;
}
