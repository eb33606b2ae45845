import {
  acousticResponses,
  equalizationResponse,
  type OutputResponse,
  type UnitAcoustics,
} from "../acoustics/index.ts";
import type {
  Configuration,
  FaderAbility,
  OverallVerdict,
  Proof,
  ProofTolerances,
  ProvedUnit,
  SettingProof,
} from "../model/index.ts";
import { outputsAsDecided } from "./as-decided.ts";
import { compareConnectors } from "./connectors.ts";
import { delayChanges } from "./delays.ts";
import { soundComparison, WEIGHTING } from "./deviation.ts";
import { exactResponses } from "./exact-responses.ts";
import { BAND_FROM_HZ, BAND_TO_HZ, comparisonGrid } from "./frequencies.ts";
import { decided, type GivenUp } from "./given-up.ts";
import { groupPaths } from "./groups.ts";
import { type ExpectedOutput, judgePaths } from "./judge-paths.ts";
import { proofParts } from "./parts.ts";
import { pairPaths } from "./path-pairs.ts";
import { graded } from "./path-verdict.ts";
import { round } from "./round.ts";
import { type ScreenNames, screenNames } from "./screen-names.ts";
import { compareSettings } from "./settings.ts";
import { countPaths, feedProofs, presetProofs, sourceChannelNames } from "./summaries.ts";
import { compareSums } from "./sums.ts";
import { DEFAULT_TOLERANCES, EQUAL } from "./tolerances.ts";

/** What a unit does to sound and level besides its configuration. */
export interface ProofUnit extends UnitAcoustics {
  /** Scale of its fader; where either unit's is unknown, marks are compared as numbers. */
  readonly fader?: FaderAbility;
}

/** The two units and what may differ. */
export interface ProveOptions {
  readonly beforeUnit: ProofUnit;
  readonly afterUnit: ProofUnit;
  /** Tolerances that differ from {@link DEFAULT_TOLERANCES}. */
  readonly tolerances?: Partial<ProofTolerances>;
  /** What the new configuration leaves out, or does otherwise, by decision. @defaultValue nothing */
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
  const grid = comparisonGrid(before, after, {
    before: options.beforeUnit.graphicQ,
    after: options.afterUnit.graphicQ,
  });
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
  const asDecided = outputsAsDecided(before, old.responses.outputs, {
    names,
    decisions,
    frequenciesHz,
    sampleRateHz: after.unit.sampleRateHz,
  });
  const expected = expectedOutputs(before, names, {
    outputs: old.responses.outputs,
    asDecided: asDecided.outputs,
  });
  const equalizationOf = new Map(before.presets.map((preset) => [preset.id, preset.equalizationId]));
  const channelIds = new Map([...names.before.channels].map(([id, label]) => [label, id]));
  const paths = judgePaths(pairs, {
    compareSound: soundComparison(
      {
        outputs: expected.responses,
        exact: new Map([...exactResponses(before, old.responses, options.beforeUnit), ...asDecided.exact]),
      },
      {
        outputs: now.responses.outputs,
        exact: exactResponses(after, now.responses, options.afterUnit),
      },
      grid,
    ),
    delays,
    tolerances,
    decisions,
    expectedOutput: (feedId) => expected.byFeed.get(feedId),
    equalizerOf: (presetId, channel, equalizationId) => {
      const channelId = channelIds.get(channel);
      const setId = equalizationId ?? equalizationOf.get(presetId);
      return channelId === undefined || setId === undefined
        ? undefined
        : equalizationResponse(old.responses, setId, channelId);
    },
  });
  const sums = compareSums(old, now, { names, grid, tolerances, decisions, asDecided: asDecided.outputs });
  const settings = compareSettings(before, after, {
    names,
    tolerances,
    decisions,
    faders: fadersOf(options),
  });
  const groups = groupPaths(paths);
  const compared = {
    groups,
    sums,
    settings: settings.settings,
    settingsCompared: settings.compared,
  };
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
    parts: proofParts(compared),
    presets: presetProofs(before, after, { paths, delaysMs: delays.presetsMs, tolerances }),
    feeds: feedProofs(names, paths),
    sourceChannels: sourceChannelNames(before, after, names, paths),
    ...compared,
    connectors: compareConnectors(before, after, {
      names,
      cables: (options.givenUp ?? []).filter((item) => item.kind === "cable"),
    }),
  };
  return { ...proof, verdict: overallVerdict(proof) };
}

/** The outputs of the old configuration by what they feed, with the filters that they have to have now. */
function expectedOutputs(
  { outputs }: Configuration,
  names: ScreenNames,
  {
    outputs: responses,
    asDecided,
  }: { outputs: ReadonlyMap<string, OutputResponse>; asDecided: ReadonlyMap<string, OutputResponse> },
) {
  const decidedId = (id: string) => `${id} as decided`;
  return {
    byFeed: new Map(
      outputs.flatMap((output): [string, ExpectedOutput][] => {
        const feedId = names.before.feeds.get(output.id)?.id;
        if (feedId === undefined) return [];
        const decided = asDecided.get(output.id);
        const { filters } = decided ?? responses.get(output.id)!;
        const id = decided === undefined ? output.id : decidedId(output.id);
        return [[feedId, { id, filters, decided: decided !== undefined }]];
      }),
    ),
    /** Keys of the second kind hold a space, which no id does. */
    responses: new Map([
      ...responses,
      ...[...asDecided].map(([id, response]) => [decidedId(id), response] as const),
    ]),
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

/** Verdicts on settings that do not count against a proof. */
const ACCEPTED: ReadonlySet<SettingProof["verdict"]> = new Set([
  "within-tolerance",
  "changed-by-decision",
  "left-out",
]);

function overallVerdict(proof: Omit<Proof, "verdict">): OverallVerdict {
  const { counts, presets, sums, settings, connectors, commonDelayMs, tolerances } = proof;
  const common = graded(commonDelayMs, EQUAL.ms, tolerances.commonDelayMs);
  const delays = [common, ...presets.map(({ delayVerdict }) => delayVerdict)];
  const differs =
    counts.audible + counts.missing + counts.new > 0 ||
    delays.includes("audible") ||
    sums.some(({ verdict }) => verdict === "audible" || verdict === "missing") ||
    settings.some(({ verdict }) => !ACCEPTED.has(verdict)) ||
    connectors.some(({ verdict }) => verdict === "changed");
  if (differs) return "differs";
  const moved =
    counts.withinTolerance > 0 ||
    delays.includes("within-tolerance") ||
    sums.some(({ verdict }) => verdict === "within-tolerance") ||
    settings.some(({ verdict }) => verdict === "within-tolerance");
  return moved ? "within-tolerance" : "equal";
}
