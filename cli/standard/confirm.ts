import { isDeepStrictEqual } from "node:util";
import { canonicalHash } from "../../src/base/canonical/index.ts";
import { BoothkeepError, EXIT_CODE } from "../../src/base/errors/index.ts";
import { valueAt } from "../../src/diff/changes/index.ts";
import { PROPOSAL_ATTACHMENT, STANDARD_ATTACHMENT } from "../../src/jobs/index.ts";
import { type KeptDocument, type Logbook, record } from "../../src/logbook/entries/index.ts";
import { confirmReadBack } from "../../src/logbook/restore/index.ts";
import type { Configuration, Proposal, ProposedStep, Standard } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile, readDocumentFile } from "../documents.ts";
import { localDateTime, signingKey } from "../logbook-options.ts";
import { findProfile } from "../profiles.ts";
import { openLogbookFolder } from "../restorable-entry.ts";

export interface ConfirmStandardOptions {
  readonly standard: string;
  readonly by: string;
  readonly key?: string;
  readonly at?: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

export interface ConfirmStandardFiles {
  readonly logbook: string;
  readonly proposal: string;
  readonly readBack: string;
}

export async function confirmStandard(
  files: ConfirmStandardFiles,
  options: ConfirmStandardOptions,
  context: Context,
): Promise<void> {
  const logbook = await openLogbookFolder(files.logbook, context);
  const proposal = await readDocumentFile<Proposal>(files.proposal, "boothkeep.proposal", context);
  const standard = await readDocumentFile<Standard>(options.standard, "boothkeep.standard", context);
  const intended =
    proposal.outcome === "follows"
      ? await followingScreen(logbook, proposal, files)
      : await proposedConfiguration(proposal, files.proposal, context);
  const readBack = await readConfigurationFile(files.readBack, context);
  requireTogether(proposal, standard, readBack, files.readBack);
  const search = { folder: options.profiles, near: files.logbook };
  const profile = await findProfile(readBack.unit.profileId, search, context);
  const confirmation = confirmReadBack(intended, readBack, { profile });
  // Read in any case: a key that cannot be used is told before the unit is driven to again.
  const key = signingKey(options.key, context);
  const holds = confirmation.verdict !== "differs";
  const { id, version } = standard;
  const recorded = holds
    ? record(logbook, {
        configuration: readBack as unknown as KeptDocument,
        reason: "standard-applied",
        recordedAt: options.at ?? localDateTime(context.now()),
        recordedBy: options.by,
        notes: `Standard ${id} ${version} applied; the unit was read back.`,
        attachments: [
          attachment(STANDARD_ATTACHMENT, standard),
          attachment(PROPOSAL_ATTACHMENT, proposal),
          attachment("confirmation.json", confirmation),
        ],
        ...key,
      })
    : undefined;
  if (options.json === true) {
    context.out(
      JSON.stringify({
        confirmation,
        recorded: recorded === undefined ? null : { id: recorded.id, entry: recorded.entry },
      }),
    );
  } else {
    const { confirmationReport, renderText } = await import("../../src/report/index.ts");
    context.out(
      renderText(confirmationReport(confirmation), { columns: context.columns, color: context.color }),
    );
    context.out(
      recorded === undefined
        ? "\nNothing was recorded: the unit holds something else than was proposed."
        : `\nRecorded as entry ${recorded.entry.number}${options.key === undefined ? "" : ", signed"}: follows ${id} ${version}.`,
    );
  }
  if (!holds) context.exit(EXIT_CODE.found);
}

/** Of a screen that had nothing to load, its last entry: if it is still what the proposal was made from. */
async function followingScreen(
  logbook: Logbook,
  proposal: Proposal,
  files: ConfirmStandardFiles,
): Promise<Configuration> {
  const { logbookScreens } = await import("../../src/logbook/entries/index.ts");
  const { readScreenHistory } = await import("../../src/jobs/index.ts");
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
    { place: { file: files.proposal }, next: "Propose again into another folder." },
  );
}

function isAsProposed({ place, screen }: ProposedStep, latest: Configuration): boolean {
  const now = valueAt(latest, place.split("/")) ?? null;
  return typeof screen === "object" && screen !== null
    ? now !== null
    : isDeepStrictEqual(now, screen ?? null);
}

/** What the proposal proposes, from the file beside it. */
async function proposedConfiguration(
  proposal: Proposal,
  file: string,
  context: Context,
): Promise<Configuration> {
  if (proposal.configurationSha256 === null) {
    throw new BoothkeepError(
      "usage.wrong",
      "The proposal proposes nothing yet: something is still to be decided.",
      {
        place: { file },
        next: "Settle what is open, propose again, load, read back, then confirm.",
      },
    );
  }
  const beside = file.replace(/\.proposal\.json$/, ".configuration.json");
  const configuration = await readConfigurationFile(beside, context);
  if (canonicalHash(configuration) === proposal.configurationSha256) return configuration;
  throw new BoothkeepError("standard.other-standard", "The configuration is not the one that was proposed.", {
    place: { file: beside },
    next: "Propose again into another folder; a proposed file is not to be changed by hand.",
  });
}

function requireTogether(
  proposal: Proposal,
  standard: Standard,
  { screen }: Configuration,
  file: string,
): void {
  if (standard.id !== proposal.standard.id || standard.version !== proposal.standard.version) {
    throw new BoothkeepError(
      "standard.other-standard",
      `The proposal is for ${proposal.standard.id} ${proposal.standard.version}.`,
      {
        next: "Give that version with --standard.",
      },
    );
  }
  if (screen.siteId !== proposal.screen.siteId || screen.screenId !== proposal.screen.screenId) {
    throw new BoothkeepError(
      "standard.wrong-screen",
      `What was read back is of ${screen.siteId} / ${screen.screenId}.`,
      {
        place: { file },
        next: `Read back ${proposal.screen.siteId} / ${proposal.screen.screenId}.`,
      },
    );
  }
}

function attachment(name: string, document: unknown) {
  return { name, bytes: new TextEncoder().encode(`${JSON.stringify(document, null, 2)}\n`) };
}
