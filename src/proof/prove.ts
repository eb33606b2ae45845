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
import { type Decided, decided, type GivenUp } from "./given-up.ts";
import { groupPaths, type JudgedPath } from "./groups.ts";
import { type PathPair, pairPaths } from "./path-pairs.ts";
import { graded, judgePath } from "./path-verdict.ts";
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
  const decisions = decided(options.givenUp ?? [], before, pairs);
  const paths = judgePaths(pairs, {
    compareSound: soundComparison(old.responses, now.responses, grid),
    delays,
    tolerances,
    decisions,
  });
  const sums = compareSums(old, now, { names, grid, tolerances, decisions });
  const settings = compareSettings(before, after, {
    names,
    tolerances,
    decisions,
    faders: fadersOf(options),
  });
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
    presets: presetProofs(before, after, { paths, delaysMs: delays.presetsMs, tolerances }),
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
  readonly decisions: Decided;
}

function judgePaths(pairs: readonly PathPair[], judging: Judging): readonly JudgedPath[] {
  const { decisions } = judging;
  return pairs.map((pair) => {
    const { place, lacks } = pair;
    const missing = decisions.missing(place) ? "given-up" : "missing";
    const added = decisions.added(place) ? "given-up" : "new";
    if (!isWhole(pair)) {
      const verdict = pair.before === undefined ? added : missing;
      return { place, verdict, reasons: lacks === undefined ? [] : [lacks] };
    }
    const through = channelAfter(pair);
    const muted = { before: pair.before.path.muted, after: pair.after.path.muted };
    if (muted.after && !muted.before) return { place, ...through, verdict: missing, reasons: ["muted"] };
    if (muted.before && !muted.after) return { place, ...through, verdict: added, reasons: ["unmuted"] };
    return { place, ...through, ...judgeSound(pair, judging) };
  });
}

function judgeSound(pair: WholePair, { compareSound, delays, tolerances, decisions }: Judging) {
  const { before, after, place } = pair;
  const presetMs = delays.presetsMs.get(place.presetId) ?? 0;
  const timing = {
    delayMs: delayChangeMs(pair) - delays.commonMs - presetMs,
    polarity: before.path.polarity === after.path.polarity ? ("same" as const) : ("opposite" as const),
  };
  const deviation = { ...compareSound(before, after), ...timing };
  const judgement = judgePath(deviation, tolerances);
  if (judgement.verdict !== "audible" || !decisions.level(place)) return { ...judgement, deviation };
  const levelled = { ...after, levelDb: after.levelDb - deviation.levelDb };
  const rest = judgePath({ ...compareSound(before, levelled), ...timing }, tolerances);
  if (rest.verdict === "audible") return { ...rest, deviation };
  return { verdict: "given-up" as const, reasons: ["level" as const], deviation };
}

function channelAfter({ place, after }: WholePair): { readonly channelAfter?: string } {
  return after.place.channel === place.channel ? {} : { channelAfter: after.place.channel };
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
  const { counts, presets, sums, settings, commonDelayMs, tolerances } = proof;
  const common = graded(commonDelayMs, EQUAL.ms, tolerances.commonDelayMs);
  const delays = [common, ...presets.map(({ delayVerdict }) => delayVerdict)];
  const differs =
    counts.audible + counts.missing + counts.new > 0 ||
    delays.includes("audible") ||
    sums.some(({ verdict }) => verdict === "audible" || verdict === "missing") ||
    settings.some(({ verdict }) => verdict !== "within-tolerance" && verdict !== "given-up");
  if (differs) return "differs";
  const moved =
    counts.withinTolerance > 0 ||
    delays.includes("within-tolerance") ||
    sums.some(({ verdict }) => verdict === "within-tolerance") ||
    settings.some(({ verdict }) => verdict === "within-tolerance");
  return moved ? "within-tolerance" : "equal";
}
