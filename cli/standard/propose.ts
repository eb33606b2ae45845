import { existsSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { canonicalHash } from "../../src/base/canonical/index.ts";
import { BoothkeepError } from "../../src/base/errors/index.ts";
import { compileStandard, isForScreen } from "../../src/fleet/standard/index.ts";
import { type ProposeOptions, proposalBasis, proposeStandard } from "../../src/jobs/index.ts";
import { type EqFits, fitEqualizer, rememberedFits } from "../../src/migrate/plan/index.ts";
import type { Proposal, StandardDecisions } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { errorText } from "../error-text.ts";
import { removeUnfinished, writeOnce } from "../files.ts";
import { type FleetScreen, fleetPlaces } from "../fleet-screens.ts";
import { findProfile } from "../profiles.ts";
import { progress } from "../progress.ts";
import { readStandard } from "../read-standard.ts";
import { wrap } from "../wrap.ts";
import { FollowedVersions } from "./followed-versions.ts";
import { pretty, sayProposals, writePapers } from "./papers.ts";

export interface ProposeStandardOptions {
  readonly out: string;
  readonly followed?: string;
  readonly decisions?: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

export async function propose(
  file: string,
  files: readonly string[],
  options: ProposeStandardOptions,
  context: Context,
): Promise<void> {
  const round = await startRound(file, options, context);
  const places = await fleetPlaces(files, context);
  const proposals: Proposal[] = [];
  const names = new Set<string>();
  const versions = new FollowedVersions(round.standard.standard);
  const bar = progress(context, "Proposed", places.length);
  const failures: BoothkeepError[] = [];
  for (const [index, { read, where }] of places.entries()) {
    try {
      const screen = await read();
      bar.at(index + 1, screen?.name);
      if (screen === undefined || !isForScreen(round.standard.standard, screen.configuration)) continue;
      if (names.has(screen.name)) throw twice(screen.name, where);
      names.add(screen.name);
      versions.add(screen.name, screen.followed);
      proposals.push(await proposalOf(screen, round, context));
    } catch (error) {
      if (!(error instanceof BoothkeepError) || !isOfOneScreen(error)) throw error;
      failures.push(error.at({ file: where }));
    }
  }
  bar.end();
  versions.say(context);
  if (failures.length > 0) return sayFailures(failures, proposals.length, context);
  if (proposals.length === 0) throw forNone(round.standard.standard, places.length, file);
  const written = await writePapers(proposals, round, context);
  sayUnusedAnswers(proposals, round, context);
  await sayProposals(proposals, { ...round, written }, options, context);
}

export interface Round {
  readonly standard: ReturnType<typeof compileStandard>;
  readonly followed: ReturnType<typeof compileStandard> | undefined;
  readonly decisions: StandardDecisions | undefined;
  readonly profiles: string | undefined;
  /** Folder of this round: equal inputs go on in the same one. */
  readonly folder: string;
  /** Shared by all screens: the same curve on the same unit is fitted once. */
  readonly eqFits: EqFits;
}

async function startRound(file: string, options: ProposeStandardOptions, context: Context): Promise<Round> {
  const standard = await readStandard(file, context);
  const { id, version } = standard.standard;
  const followed = options.followed === undefined ? undefined : await readStandard(options.followed, context);
  const decisions =
    options.decisions === undefined
      ? undefined
      : await readDocumentFile<StandardDecisions>(options.decisions, "boothkeep.standard-decisions", context);
  if (decisions !== undefined && (decisions.standardId !== id || decisions.toVersion !== version)) {
    throw otherStandard(
      `The decisions are for '${decisions.standardId}' ${decisions.toVersion}.`,
      `${id} ${version}`,
    );
  }
  if (followed !== undefined && followed.standard.id !== id) {
    throw otherStandard(`'${options.followed}' is a version of '${followed.standard.id}'.`, id);
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
    profiles: options.profiles,
    folder: join(options.out, `${id}-${version}-${hash.slice(0, 8)}`),
    eqFits: rememberedFits(fitEqualizer),
  };
}

/** Proposes for one screen, or takes what an earlier run of the same round has written. */
async function proposalOf(screen: FleetScreen, round: Round, context: Context): Promise<Proposal> {
  const { configuration, near } = screen;
  const followed =
    screen.followed?.id === round.standard.standard.id ? compileStandard(screen.followed) : round.followed;
  const options: ProposeOptions = {
    standard: round.standard,
    followed,
    profile: await findProfile(configuration.unit.profileId, { folder: round.profiles, near }, context),
    decisions: round.decisions,
    eqFits: round.eqFits,
  };
  const base = join(round.folder, configuration.screen.siteId, configuration.screen.screenId);
  const file = `${base}.proposal.json`;
  if (existsSync(resolve(context.cwd, file))) {
    const earlier = await readDocumentFile<Proposal>(file, "boothkeep.proposal", context);
    if (earlier.basis !== proposalBasis(configuration, options)) throw changedSince(screen.name, file);
    return earlier;
  }
  const { proposal, configuration: proposed } = proposeStandard(configuration, options);
  removeUnfinished(dirname(resolve(context.cwd, file)));
  // The proposal comes last: where it is, everything of the screen is.
  if (proposed !== undefined) writeOnce(`${base}.configuration.json`, pretty(proposed), context.cwd);
  writeOnce(file, pretty(proposal), context.cwd);
  return proposal;
}

/** Whether the other screens can go on: a disk that is full would come back from each of them. */
function isOfOneScreen({ code }: BoothkeepError): boolean {
  return code === "output.exists" || !code.startsWith("output.");
}

/**
 * The proposals of the other screens are kept and taken up again. Papers wait until all are there, since a work list is
 * never written over.
 */
function sayFailures(failures: readonly BoothkeepError[], proposed: number, context: Context): void {
  for (const failure of failures) context.err(errorText(failure, context.columns));
  const words = `${proposed} proposed, ${failures.length} could not be. Work lists are written when every screen is proposed: mend these or leave them out, then run the same command again.`;
  context.err(wrap(words, context.columns));
  context.exit(Math.max(...failures.map(({ exitCode }) => exitCode)));
}

/** A misspelt place would otherwise stay unnoticed. */
function sayUnusedAnswers(proposals: readonly Proposal[], { decisions }: Round, context: Context): void {
  const used = new Set(proposals.flatMap(({ answersUsed }) => answersUsed));
  for (const [index, { place, choose }] of (decisions?.answers ?? []).entries()) {
    if (choose !== null && !used.has(index)) context.err(`boothkeep: nothing asked about '${place}'.`);
  }
}

function forNone(
  { id, version }: { readonly id: string; readonly version: string },
  places: number,
  file: string,
): BoothkeepError {
  return new BoothkeepError(
    "standard.wrong-screen",
    `${id} ${version} is for none of the ${places} documents that were named.`,
    {
      place: { file, pointer: "/screens" },
      next: "Name screens of its class, or widen the class in a new version.",
    },
  );
}

function twice(name: string, where: string): BoothkeepError {
  return new BoothkeepError("usage.wrong", `The screen ${name} was named twice.`, {
    place: { file: where },
    next: "Name each screen once.",
  });
}

function otherStandard(words: string, wanted: string): BoothkeepError {
  return new BoothkeepError("standard.other-standard", words, { next: `Give the one for ${wanted}.` });
}

function changedSince(name: string, file: string): BoothkeepError {
  return new BoothkeepError("output.exists", `There is a proposal for ${name} that rests on other facts.`, {
    place: { file },
    next: "Screen, unit profile or standard changed since. Start with another --out folder.",
  });
}
