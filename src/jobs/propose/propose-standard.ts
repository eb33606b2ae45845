import { isDeepStrictEqual } from "node:util";
import { canonicalHash } from "../../base/canonical/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import {
  applyStandard,
  type CompiledStandard,
  type Fitted,
  fitToUnit,
  settledSteps,
} from "../../fleet/standard/index.ts";
import type { EqFits } from "../../migrate/plan/index.ts";
import type {
  Configuration,
  Proof,
  Proposal,
  ProposalFinding,
  ProposedPathGroup,
  ProposedSound,
  ProposedStep,
  Standard,
  StandardDecisions,
  UnitProfile,
} from "../../model/index.ts";
import { unitAcoustics } from "../../profile/index.ts";
import { prove } from "../../proof/index.ts";

/** A standard, the unit, and what was decided. */
export interface ProposeOptions {
  readonly standard: CompiledStandard;
  /** The version that the screen last followed, as confirmed by reading back. */
  readonly followed?: CompiledStandard | undefined;
  /** Profile of the screen's unit. */
  readonly profile: UnitProfile;
  readonly decisions?: StandardDecisions | undefined;
  /** Where EQ fits come from. @defaultValue computed here; many screens do well to share one */
  readonly eqFits?: EqFits | undefined;
}

/** A proposal, and the configuration where nothing is left to decide. */
export interface ProposedConfiguration {
  readonly proposal: Proposal;
  /** What is to be loaded; undefined where nothing is proposed. */
  readonly configuration: Configuration | undefined;
}

/**
 * Brings one screen to a standard on paper: applied three ways, fitted to the unit, checked for it, its sound proved path by
 * path. Nothing is done by it: a person loads the configuration, and what was read back decides.
 */
export function proposeStandard(screen: Configuration, options: ProposeOptions): ProposedConfiguration {
  const applied = applyStandard(screen, options);
  const fitted = fitToUnit(screen, applied.configuration, fitOptions(options));
  const outcome = outcomeOf(screen, applied.steps, fitted);
  const proposed = outcome === "proposed" ? fitted.configuration : undefined;
  const sound = proposed && soundOf(screen, proposed, options.profile);
  const { siteId, siteName, screenId, screenName } = screen.screen;
  const { profileId, serial } = screen.unit;
  const { id, version, title } = options.standard.standard;
  return {
    configuration: proposed,
    proposal: {
      kind: "boothkeep.proposal",
      schemaVersion: "1.0.0",
      screen: { siteId, siteName, screenId, screenName, profileId, serial },
      standard: { id, version, title },
      followed: options.followed?.standard.version ?? null,
      basis: proposalBasis(screen, options),
      outcome,
      steps: outcome === "open" ? applied.steps : settledSteps(applied.steps, fitted.configuration),
      fitting: fitted.items,
      questions: fitted.questions,
      answersUsed: [...new Set([...applied.answersUsed, ...fitted.answersUsed])].sort((a, b) => a - b),
      findings: outcome === "proposed" ? fitted.findings.map(shortened) : [],
      sound: sound ?? null,
      configurationSha256: proposed === undefined ? null : canonicalHash(proposed),
    },
  };
}

function fitOptions({ standard, profile, decisions, eqFits }: ProposeOptions) {
  return { standard, profile, decisions, ...(eqFits !== undefined && { eqFits }) };
}

/** SHA-256 over all that a proposal rests on. */
export function proposalBasis(
  screen: Configuration,
  { standard, followed, profile, decisions }: ProposeOptions,
): string {
  return canonicalHash({
    configuration: canonicalHash(screen),
    standard: canonicalHash(standard.standard as Standard),
    followed: followed === undefined ? null : canonicalHash(followed.standard),
    profile: canonicalHash(profile),
    decisions: decisions === undefined ? null : canonicalHash(decisions),
  });
}

function outcomeOf(
  screen: Configuration,
  steps: readonly ProposedStep[],
  { configuration, questions }: Fitted,
): "follows" | "proposed" | "open" {
  if (steps.some(({ outcome }) => outcome === "asks")) return "open";
  if (questions.some(({ chosen }) => chosen === null)) return "open";
  return isDeepStrictEqual(configuration, screen) ? "follows" : "proposed";
}

function shortened({ code, severity, place, words }: Finding): ProposalFinding {
  return { code, severity, place: place.words, words };
}

function soundOf(before: Configuration, after: Configuration, profile: UnitProfile): ProposedSound {
  const unit = { ...unitAcoustics(profile, before.unit.sampleRateHz), fader: profile.fader };
  const proof = prove(before, after, { beforeUnit: unit, afterUnit: unit });
  const { counts } = proof;
  return {
    verdict: proof.verdict,
    paths: counts.paths,
    equal: counts.equal,
    withinTolerance: counts.withinTolerance,
    audible: counts.audible,
    missing: counts.missing,
    new: counts.new,
    groups: groupsOf(proof, after),
  };
}

/** Groups of a proof that look alike in print, told once. */
function groupsOf(proof: Proof, { presets: now }: Configuration): readonly ProposedPathGroup[] {
  const label = (id: string) => now.find((preset) => preset.id === id)?.label ?? labelIn(proof.presets, id);
  const joined = new Map<string, { group: ProposedPathGroup; readonly channels: Set<string> }>();
  for (const { verdict, deviation, pathCount, paths } of proof.groups) {
    if (verdict === "equal") continue;
    const names = [...new Set(paths.flatMap(({ presetIds }) => presetIds))].map(label).join(", ");
    const numbers = deviation && {
      levelDb: hundredths(deviation.levelDb),
      maxDb: hundredths(deviation.responseDb),
      delayMs: hundredths(deviation.delayMs),
    };
    const key = JSON.stringify([verdict, names, numbers]);
    const known = joined.get(key) ?? {
      group: { verdict, words: names, paths: 0, ...numbers },
      channels: new Set(),
    };
    known.group = { ...known.group, paths: known.group.paths + pathCount };
    for (const { channel } of paths) known.channels.add(channel);
    joined.set(key, known);
  }
  return [...joined.values()].map(({ group, channels }) => ({
    ...group,
    words: `Preset ${group.words}: ${[...channels].join(", ")}`,
  }));
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}

function labelIn(presets: Proof["presets"], id: string): string {
  return presets.find((preset) => preset.presetId === id)?.label ?? id;
}
