import { canonicalHash } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import { type CompiledStandard, compileStandard, isForScreen } from "../../fleet/standard/index.ts";
import { type EqFits, fitEqualizer, rememberedFits } from "../../migrate/plan/index.ts";
import type { Proposal, Standard, StandardDecisions, UnitProfile } from "../../model/index.ts";
import type { JobOptions } from "../job-options.ts";
import type { FleetScreen } from "../screens/fleet-screen.ts";
import { type OddVersions, oddVersions } from "./followed-versions.ts";
import {
  type ProposedConfiguration,
  type ProposeOptions,
  proposalBasis,
  proposeStandard,
} from "./propose-standard.ts";

/** What all screens of a round are brought to. */
export interface ProposalRound {
  readonly standard: CompiledStandard;
  /** The version that screens without a record of one follow. */
  readonly followed: CompiledStandard | undefined;
  readonly decisions: StandardDecisions | undefined;
  /** Equal inputs give an equal name, so that a round that was ended in the middle goes on: "house-71-1.1.0-1f9c03aa". */
  readonly name: string;
  /** Shared by all screens: the same curve on the same unit is fitted once. */
  readonly eqFits: EqFits;
}

/** What was followed and what was decided before this round. */
export interface ProposalRoundOptions {
  /** The version that screens without a record of one follow. */
  readonly followed?: CompiledStandard | undefined;
  readonly decisions?: StandardDecisions | undefined;
  /** What documents are called in errors. */
  readonly names?: { readonly followed?: string | undefined };
}

/**
 * A round of proposals: a standard, and what is the same for all screens.
 *
 * @throws BoothkeepError standard.other-standard where decisions or the followed version are of another standard
 */
export function proposalRound(
  standard: CompiledStandard,
  { followed, decisions, names }: ProposalRoundOptions = {},
): ProposalRound {
  const { id, version } = standard.standard;
  if (decisions !== undefined && (decisions.standardId !== id || decisions.toVersion !== version)) {
    throw otherStandard(
      `The decisions are for '${decisions.standardId}' ${decisions.toVersion}.`,
      `${id} ${version}`,
    );
  }
  if (followed !== undefined && followed.standard.id !== id) {
    const name = names?.followed === undefined ? "The followed standard" : `'${names.followed}'`;
    throw otherStandard(`${name} is a version of '${followed.standard.id}'.`, id);
  }
  const hash = canonicalHash({
    standard: standard.standard,
    followed: followed?.standard ?? null,
    decisions: decisions ?? null,
  });
  return {
    standard,
    followed,
    decisions,
    name: `${id}-${version}-${hash.slice(0, 8)}`,
    eqFits: rememberedFits(fitEqualizer),
  };
}

/** A screen that is read when it is asked for, so that a fleet is never in memory as a whole. */
export interface FleetPlace<Screen extends FleetScreen = FleetScreen> {
  /** The file or the logbook's folder, for errors. */
  readonly where: string;
  /** Undefined where there is nothing to compare with a standard: another kind of document, a screen without entries. */
  readonly read: () => Promise<Screen | undefined>;
}

/** Where proposals are kept, so that a round can go on. */
export interface ProposalStore<Screen extends FleetScreen = FleetScreen> {
  /** The screen's proposal of an earlier run, and what it is called in errors. */
  readonly earlier: (
    screen: Screen,
  ) => Promise<{ readonly proposal: Proposal; readonly file?: string } | undefined>;
  readonly keep: (screen: Screen, proposed: ProposedConfiguration) => void;
}

/** Where proposals are kept, and where unit profiles come from. */
export interface ProposeRoundOptions<Screen extends FleetScreen> extends JobOptions {
  readonly store: ProposalStore<Screen>;
  /** The profile of a screen's unit. */
  readonly profileOf: (screen: Screen) => Promise<UnitProfile>;
}

/** The proposals of a round, and what went wrong. */
export interface ProposedRound {
  readonly proposals: readonly Proposal[];
  /** Screens that nothing could be proposed for, each with its place. */
  readonly failures: readonly BoothkeepError[];
  readonly odd: OddVersions;
  /** Places of answers that no screen asked about: a misspelt place would otherwise stay unnoticed. */
  readonly unusedAnswers: readonly string[];
}

/**
 * Proposes for every screen that the standard is for, or takes what an earlier run of the same round has kept. A screen
 * that fails does not stop the others; a store that can take no more does.
 *
 * @throws BoothkeepError output.* of the store, other than output.exists
 */
export async function proposeRound<Screen extends FleetScreen>(
  round: ProposalRound,
  places: readonly FleetPlace<Screen>[],
  { store, profileOf, onDone, signal }: ProposeRoundOptions<Screen>,
): Promise<ProposedRound> {
  const { standard } = round.standard;
  const proposals: Proposal[] = [];
  const failures: BoothkeepError[] = [];
  const seen = new Map<string, Standard | undefined>();
  for (const { read, where } of places) {
    signal?.throwIfAborted();
    let name = where;
    try {
      const screen = await read();
      name = screen?.name ?? where;
      if (screen !== undefined && isForScreen(standard, screen.configuration)) {
        if (seen.has(name)) throw twice(name);
        const followed = screen.followed?.();
        seen.set(name, followed);
        const options = proposeOptions(round, followed, await profileOf(screen));
        proposals.push(await proposalOf(screen, options, store));
      }
    } catch (error) {
      if (!(error instanceof BoothkeepError) || !isOfOneScreen(error)) throw error;
      failures.push(error.at({ file: where }));
    }
    onDone?.(name);
  }
  const followers = [...seen].map(([name, followed]) => ({ name, followed }));
  return {
    proposals,
    failures,
    odd: oddVersions(standard as Standard, followers),
    unusedAnswers: unusedAnswers(proposals, round),
  };
}

function proposeOptions(
  { standard, followed: followedByAll, decisions, eqFits }: ProposalRound,
  followed: Standard | undefined,
  profile: UnitProfile,
): ProposeOptions {
  const isOfThis = followed !== undefined && followed.id === standard.standard.id;
  return {
    standard,
    followed: isOfThis ? compileStandard(followed) : followedByAll,
    profile,
    decisions,
    eqFits,
  };
}

async function proposalOf<Screen extends FleetScreen>(
  screen: Screen,
  options: ProposeOptions,
  store: ProposalStore<Screen>,
): Promise<Proposal> {
  const earlier = await store.earlier(screen);
  if (earlier === undefined) {
    const proposed = proposeStandard(screen.configuration, options);
    store.keep(screen, proposed);
    return proposed.proposal;
  }
  if (earlier.proposal.basis === proposalBasis(screen.configuration, options)) return earlier.proposal;
  throw new BoothkeepError(
    "output.exists",
    `There is a proposal for ${screen.name} that rests on other facts.`,
    {
      place: earlier.file === undefined ? {} : { file: earlier.file },
      next: "Screen, unit profile or standard changed since. Start with another --out folder.",
    },
  );
}

/** Whether the other screens can go on: a disk that is full would come back from each of them. */
function isOfOneScreen({ code }: BoothkeepError): boolean {
  return code === "output.exists" || !code.startsWith("output.");
}

function unusedAnswers(proposals: readonly Proposal[], { decisions }: ProposalRound): readonly string[] {
  const used = new Set(proposals.flatMap(({ answersUsed }) => answersUsed));
  return (decisions?.answers ?? []).flatMap(({ place, choose }, index) =>
    choose !== null && !used.has(index) ? [place] : [],
  );
}

function twice(name: string): BoothkeepError {
  return new BoothkeepError("usage.wrong", `The screen ${name} was named twice.`, {
    next: "Name each screen once.",
  });
}

function otherStandard(words: string, wanted: string): BoothkeepError {
  return new BoothkeepError("standard.other-standard", words, { next: `Give the one for ${wanted}.` });
}
