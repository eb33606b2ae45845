import { existsSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { BoothkeepError } from "../../src/public/boothkeep.ts";
import {
  type OddVersions,
  type ProposalStore,
  type ProposedRound,
  proposalRound,
  proposeRound,
  type Standard,
} from "../../src/public/fleet.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { errorText } from "../error-text.ts";
import { removeUnfinished, writeOnce } from "../files.ts";
import { fleetPlaces, type PlacedScreen } from "../fleet-screens.ts";
import { findProfile } from "../profiles.ts";
import { progress } from "../progress.ts";
import { readStandard } from "../read-standard.ts";
import { wrap } from "../wrap.ts";
import { pretty, type Round, sayProposals, writePapers } from "./papers.ts";

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
  const { standard } = round.standard;
  const places = await fleetPlaces(files, context);
  const bar = progress(context, "Proposed", places.length);
  let done = 0;
  const proposed = await proposeRound(round, places, {
    store: proposalFiles(round.folder, context),
    profileOf: ({ configuration, near }) =>
      findProfile(configuration.unit.profileId, { folder: options.profiles, near }, context),
    onDone: (name) => {
      done += 1;
      bar.at(done, name);
    },
  });
  bar.end();
  const { proposals } = proposed;
  sayOddVersions(proposed.odd, standard, context);
  if (proposed.failures.length > 0) return sayFailures(proposed, context);
  if (proposals.length === 0) throw forNone(standard, places.length, file);
  const written = await writePapers(proposals, round, context);
  for (const place of proposed.unusedAnswers) context.err(`boothkeep: nothing asked about '${place}'.`);
  await sayProposals(proposals, { ...round, written }, options, context);
}

async function startRound(file: string, options: ProposeStandardOptions, context: Context): Promise<Round> {
  const standard = await readStandard(file, context);
  const followed = options.followed === undefined ? undefined : await readStandard(options.followed, context);
  const decisions =
    options.decisions === undefined
      ? undefined
      : await readDocumentFile(options.decisions, "boothkeep.standard-decisions", context);
  const round = proposalRound(standard, { followed, decisions, names: { followed: options.followed } });
  return { ...round, folder: join(options.out, round.name) };
}

/** Proposals as files of a folder, one folder a site. */
function proposalFiles(folder: string, context: Context): ProposalStore<PlacedScreen> {
  const baseOf = ({ configuration: { screen } }: PlacedScreen) =>
    join(folder, screen.siteId, screen.screenId);
  return {
    earlier: async (screen) => {
      const file = `${baseOf(screen)}.proposal.json`;
      if (!existsSync(resolve(context.cwd, file))) return undefined;
      return { proposal: await readDocumentFile(file, "boothkeep.proposal", context), file };
    },
    keep: (screen, { proposal, configuration }) => {
      const base = baseOf(screen);
      removeUnfinished(dirname(resolve(context.cwd, base)));
      // The proposal comes last: where it is, everything of the screen is.
      if (configuration !== undefined)
        writeOnce(`${base}.configuration.json`, pretty(configuration), context.cwd);
      writeOnce(`${base}.proposal.json`, pretty(proposal), context.cwd);
    },
  };
}

/**
 * The proposals of the other screens are kept and taken up again. Papers wait until all are there, since a work list is
 * never written over.
 */
function sayFailures({ failures, proposals }: ProposedRound, context: Context): void {
  for (const failure of failures) context.err(errorText(failure, context.columns));
  const words = `${proposals.length} proposed, ${failures.length} could not be. Work lists are written when every screen is proposed: mend these or leave them out, then run the same command again.`;
  context.err(wrap(words, context.columns));
  context.exit(Math.max(...failures.map(({ exitCode }) => exitCode)));
}

/** What is probably not meant. */
function sayOddVersions(
  { later, changed }: OddVersions,
  { id, version }: Pick<Standard, "id" | "version">,
  context: Context,
): void {
  const say = (words: string) => context.err(wrap(`boothkeep: ${words}`, context.columns));
  if (later.length > 0)
    say(`${named(later)} a later version than ${id} ${version}: this round takes back what came after it.`);
  if (changed.length > 0)
    say(
      `${named(changed)} ${id} ${version} with other lines: a standard that was applied and is changed needs a new version.`,
    );
}

const MOST_NAMED = 4;

function named(names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  const list = names.slice(0, MOST_NAMED).join(", ") + (more > 0 ? ` and ${more} more` : "");
  return `${list} ${names.length === 1 ? "follows" : "follow"}`;
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
