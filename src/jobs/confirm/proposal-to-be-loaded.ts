import { isDeepStrictEqual } from "node:util";
import { canonicalHash } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import { type Logbook, logbookScreens } from "../../logbook/entries/index.ts";
import {
  type Configuration,
  type Proposal,
  type ProposedStep,
  type Standard,
  valueAt,
} from "../../model/index.ts";
import { readScreenHistory } from "../screens/screen-history.ts";
import type { ToBeLoaded } from "./to-be-loaded.ts";

/** A proposal that somebody has loaded, and what belongs to it. */
export interface LoadedProposal {
  readonly proposal: Proposal;
  /** The standard that was proposed. */
  readonly standard: Standard;
  /** The configuration that was proposed; absent where the proposal proposes none. */
  readonly proposed?: Configuration | undefined;
  readonly readBack: Configuration;
  /** What the documents are called in errors. */
  readonly names?: {
    readonly proposal?: string;
    readonly proposed?: string;
    readonly readBack?: string;
  };
}

/**
 * What a proposal brings a screen to. A screen that has nothing to load is at its last entry, if that is still what the
 * proposal was made from.
 *
 * @throws BoothkeepError usage.wrong where something is still to be decided; standard.other-standard and
 *   standard.wrong-screen where the documents do not belong together
 */
export function proposalToBeLoaded(logbook: Logbook, loaded: LoadedProposal): ToBeLoaded {
  const { proposal, standard } = loaded;
  const configuration =
    proposal.outcome === "follows" ? followingScreen(logbook, loaded) : proposedConfiguration(loaded);
  requireTogether(loaded);
  return { configuration, applied: { standard, proposal } };
}

function followingScreen(logbook: Logbook, { proposal, names }: LoadedProposal): Configuration {
  const { siteId, screenId } = proposal.screen;
  for (const screen of logbookScreens(logbook)) {
    const history = readScreenHistory(screen);
    if (history.siteId !== siteId || history.screenId !== screenId) continue;
    const latest = history.latest();
    if (latest !== undefined && proposal.steps.every((step) => isAsProposed(step, latest))) return latest;
  }
  throw new BoothkeepError(
    "standard.other-standard",
    `The last entry of ${siteId} / ${screenId} is not what the proposal was made from.`,
    { place: inFile(names?.proposal), next: "Propose again into another folder." },
  );
}

function isAsProposed({ place, screen }: ProposedStep, latest: Configuration): boolean {
  const now = valueAt(latest, place.split("/")) ?? null;
  return typeof screen === "object" && screen !== null
    ? now !== null
    : isDeepStrictEqual(now, screen ?? null);
}

function proposedConfiguration({ proposal, proposed, names }: LoadedProposal): Configuration {
  if (proposal.configurationSha256 === null) {
    throw new BoothkeepError(
      "usage.wrong",
      "The proposal proposes nothing yet: something is still to be decided.",
      {
        place: inFile(names?.proposal),
        next: "Settle what is open, propose again, load, read back, then confirm.",
      },
    );
  }
  if (proposed !== undefined && canonicalHash(proposed) === proposal.configurationSha256) return proposed;
  throw new BoothkeepError("standard.other-standard", "The configuration is not the one that was proposed.", {
    place: inFile(names?.proposed),
    next: "Propose again into another folder; a proposed file is not to be changed by hand.",
  });
}

function requireTogether({ proposal, standard, readBack, names }: LoadedProposal): void {
  const { id, version } = proposal.standard;
  if (standard.id !== id || standard.version !== version) {
    throw new BoothkeepError("standard.other-standard", `The proposal is for ${id} ${version}.`, {
      next: "Give that version with --standard.",
    });
  }
  const { siteId, screenId } = proposal.screen;
  const { screen } = readBack;
  if (screen.siteId !== siteId || screen.screenId !== screenId) {
    throw new BoothkeepError(
      "standard.wrong-screen",
      `What was read back is of ${screen.siteId} / ${screen.screenId}.`,
      { place: inFile(names?.readBack), next: `Read back ${siteId} / ${screenId}.` },
    );
  }
}

function inFile(file: string | undefined): { readonly file?: string } {
  return file === undefined ? {} : { file };
}
