import { acousticResponses, equalizationResponse, type UnitAcoustics } from "../acoustics/index.ts";
import type {
  Configuration,
  FaderAbility,
  OverallVerdict,
  Proof,
  ProofTolerances,
  ProvedUnit,
} from "../model/index.ts";
import { delayChanges } from "./delays.ts";
import { soundComparison, WEIGHTING } from "./deviation.ts";
import { BAND_FROM_HZ, BAND_TO_HZ, comparisonGrid } from "./frequencies.ts";
import { decided, type GivenUp } from "./given-up.ts";
import { groupPaths } from "./groups.ts";
import { judgePaths } from "./judge-paths.ts";
import { pairPaths } from "./path-pairs.ts";
import { graded } from "./path-verdict.ts";
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
  const decisions = decided(options.givenUp ?? [], before, { pairs, names });
  const equalizationOf = new Map(before.presets.map((preset) => [preset.id, preset.equalizationId]));
  const paths = judgePaths(pairs, {
    compareSound: soundComparison(old.responses, now.responses, grid),
    delays,
    tolerances,
    decisions,
    equalizerOf: ({ place, path }, other) =>
      equalizationResponse(
        old.responses,
        other.equalizationId ?? equalizationOf.get(place.presetId) ?? "",
        before.channels.find(({ label }) => label === other.channel)?.id ?? path.channelId,
      ),
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
