import { acousticResponses, type UnitAcoustics } from "../acoustics/index.ts";
import type {
  Configuration,
  FaderAbility,
  OverallVerdict,
  Proof,
  ProofTolerances,
  ProvedUnit,
} from "../model/index.ts";
import { centralValue } from "./delays.ts";
import { type CompareSound, delayChangeMs, soundComparison, WEIGHTING } from "./deviation.ts";
import { BAND_FROM_HZ, BAND_TO_HZ, comparisonGrid } from "./frequencies.ts";
import { type GivenUp, pathGivenUp } from "./given-up.ts";
import { groupPaths, type JudgedPath } from "./groups.ts";
import { type PathPair, pairPaths } from "./path-pairs.ts";
import { judgePath } from "./path-verdict.ts";
import { round } from "./round.ts";
import { screenNames } from "./screen-names.ts";
import { compareSettings } from "./settings.ts";
import { countPaths, feedProofs, presetProofs, sourceChannelNames } from "./summaries.ts";
import { compareSums } from "./sums.ts";
import { DEFAULT_TOLERANCES, EQUAL } from "./tolerances.ts";

/** What a unit does to sound and level besides its configuration. */
export interface ProofUnit extends UnitAcoustics {
  /** Scale of its fader; where either unit's is unknown, marks are compared as numbers. */
  readonly fader?: FaderAbility;
}

export interface ProveOptions {
  readonly beforeUnit: ProofUnit;
  readonly afterUnit: ProofUnit;
  /** Tolerances that differ from {@link DEFAULT_TOLERANCES}. */
  readonly tolerances?: Partial<ProofTolerances>;
  /** What the new configuration leaves out by decision. @defaultValue nothing */
  readonly givenUp?: readonly GivenUp[];
}

/**
 * Proves what becomes of every path of a configuration when another one takes its place: magnitude, level, phase, delay
 * and polarity, the sum of each loudspeaker's ways, and the settings that are no filters.
 *
 * It knows the two documents and what the units do to sound, and nothing of how the new document was made. Paths pair by
 * their names on the screen's side: preset by id, source channel by what it carries or by position, program channel by
 * label, loudspeaker and way by id.
 *
 * @throws BoothkeepError `acoustics.invalid-filter`, `acoustics.unknown-id` with the place in the document that cannot be
 *   computed.
 * @example
 * const proof = prove(before, after, {
 *   beforeUnit: unitAcoustics(oldProfile, before.unit.sampleRateHz),
 *   afterUnit: unitAcoustics(newProfile, after.unit.sampleRateHz),
 * });
 * proof.verdict; // "equal", "within-tolerance" or "differs"
 */
export function prove(before: Configuration, after: Configuration, options: ProveOptions): Proof {
  const tolerances = { ...DEFAULT_TOLERANCES, ...options.tolerances };
  const givenUp = options.givenUp ?? [];
  const grid = comparisonGrid(before, after);
  const { frequenciesHz } = grid;
  const old = {
    configuration: before,
    responses: acousticResponses(before, { frequenciesHz, unit: options.beforeUnit }),
  };
  const now = {
    configuration: after,
    responses: acousticResponses(after, { frequenciesHz, unit: options.afterUnit }),
  };
  const names = screenNames(before, after);
  const pairs = pairPaths(old, now, names);
  const delays = delayChanges(pairs);
  const paths = judgePaths(pairs, {
    compareSound: soundComparison(old.responses, now.responses, grid),
    delays,
    tolerances,
    isGivenUp: (pair) => pathGivenUp(givenUpPlace(pair, before), givenUp),
  });
  const sums = compareSums(old, now, {
    names,
    grid,
    tolerances,
    givenUp: (loudspeakerId) =>
      givenUp.some((item) => item.kind === "loudspeaker" && item.loudspeakerId === loudspeakerId),
  });
  const settings = compareSettings(before, after, { names, tolerances, givenUp, faders: fadersOf(options) });
  const proof: Omit<Proof, "verdict"> = {
    kind: "boothkeep.proof",
    schemaVersion: "1.0.0",
    before: provedUnit(before, options.beforeUnit),
    after: provedUnit(after, options.afterUnit),
    tolerances,
    method: {
      fromHz: round(BAND_FROM_HZ, 2),
      toHz: round(BAND_TO_HZ, 2),
      lowestHz: round(frequenciesHz[0]!, 2),
      highestHz: round(frequenciesHz.at(-1)!, 2),
      frequencies: frequenciesHz.length,
      weighting: WEIGHTING,
    },
    commonDelayMs: round(delays.commonMs, 6),
    counts: countPaths(paths),
    presets: presetProofs(before, after, paths, (id) => round(delays.presetsMs.get(id) ?? 0, 6)),
    feeds: feedProofs(names, paths),
    sourceChannels: sourceChannelNames(before, after, names, paths),
    groups: groupPaths(paths),
    sums,
    settings: settings.settings,
    settingsCompared: settings.compared,
  };
  return { ...proof, verdict: overallVerdict(proof) };
}

interface DelayChanges {
  readonly commonMs: number;
  /** Beyond the common delay, by preset. */
  readonly presetsMs: ReadonlyMap<string, number>;
}

/** Takes the common delay, then that of each preset, out of the delay changes of all paths. */
function delayChanges(pairs: readonly PathPair[]): DelayChanges {
  const changes = pairs.filter(isWhole).map((pair) => ({
    presetId: pair.place.presetId,
    changeMs: delayChangeMs(pair),
  }));
  const commonMs = centralValue(changes.map(({ changeMs }) => changeMs));
  const byPreset = new Map<string, number[]>();
  for (const { presetId, changeMs } of changes) {
    const values = byPreset.get(presetId) ?? [];
    values.push(changeMs - commonMs);
    byPreset.set(presetId, values);
  }
  return {
    commonMs,
    presetsMs: new Map([...byPreset].map(([id, values]) => [id, centralValue(values)])),
  };
}

type WholePair = Required<Pick<PathPair, "before" | "after">> & PathPair;

function isWhole(pair: PathPair): pair is WholePair {
  return pair.before !== undefined && pair.after !== undefined;
}

interface Judging {
  readonly compareSound: CompareSound;
  readonly delays: DelayChanges;
  readonly tolerances: ProofTolerances;
  readonly isGivenUp: (pair: PathPair) => boolean;
}

function judgePaths(pairs: readonly PathPair[], judging: Judging): readonly JudgedPath[] {
  return pairs.map((pair) => {
    const { place } = pair;
    const missing = () => (judging.isGivenUp(pair) ? ("given-up" as const) : ("missing" as const));
    if (!isWhole(pair)) {
      const verdict = pair.before === undefined ? ("new" as const) : missing();
      return { place, verdict, reasons: pair.lacks === undefined ? [] : [pair.lacks] };
    }
    const through = channelAfter(pair);
    const muted = { before: pair.before.path.muted, after: pair.after.path.muted };
    if (muted.after && !muted.before) return { place, ...through, verdict: missing(), reasons: ["muted"] };
    if (muted.before && !muted.after) return { place, ...through, verdict: "new", reasons: ["unmuted"] };
    return { place, ...through, ...judged(pair, judging) };
  });
}

function judged(pair: WholePair, { compareSound, delays, tolerances }: Judging) {
  const presetMs = delays.presetsMs.get(pair.place.presetId) ?? 0;
  const deviation = {
    ...compareSound(pair.before, pair.after),
    delayMs: delayChangeMs(pair) - delays.commonMs - presetMs,
    polarity:
      pair.before.path.polarity === pair.after.path.polarity ? ("same" as const) : ("opposite" as const),
  };
  return { ...judgePath(deviation, presetMs, tolerances), deviation };
}

function channelAfter({ place, after }: WholePair): { readonly channelAfter?: string } {
  return after.place.channel === place.channel ? {} : { channelAfter: after.place.channel };
}

function givenUpPlace({ place }: PathPair, before: Configuration) {
  return {
    presetId: place.presetId,
    sourceId: before.presets.find(({ id }) => id === place.presetId)?.sourceId ?? "",
    channel: place.channel,
    feedKind: place.feed.kind,
    loudspeakerId: place.feed.loudspeakerId,
  };
}

function fadersOf({ beforeUnit, afterUnit }: ProveOptions) {
  if (beforeUnit.fader === undefined || afterUnit.fader === undefined) return undefined;
  return { before: beforeUnit.fader, after: afterUnit.fader };
}

function provedUnit({ unit }: Configuration, { latencyMs = 0 }: ProofUnit): ProvedUnit {
  const { profileId, serial, firmware, sampleRateHz } = unit;
  return { profileId, serial, firmware, sampleRateHz, latencyMs };
}

function overallVerdict(proof: Omit<Proof, "verdict">): OverallVerdict {
  const { counts, sums, settings, commonDelayMs, tolerances } = proof;
  const differs =
    counts.audible + counts.missing + counts.new > 0 ||
    sums.some(({ verdict }) => verdict === "audible" || verdict === "missing") ||
    settings.some(({ verdict }) => verdict !== "within-tolerance" && verdict !== "given-up") ||
    Math.abs(commonDelayMs) > tolerances.commonDelayMs;
  if (differs) return "differs";
  const moved =
    counts.withinTolerance > 0 ||
    sums.some(({ verdict }) => verdict === "within-tolerance") ||
    settings.some(({ verdict }) => verdict === "within-tolerance") ||
    Math.abs(commonDelayMs) > EQUAL.ms;
  return moved ? "within-tolerance" : "equal";
}
