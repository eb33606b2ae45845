import { type ConfirmOptions, confirmAndSay } from "../confirmed.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile, readDocumentFile } from "../documents.ts";
import { openLogbookFolder } from "../restorable-entry.ts";

export interface ConfirmStandardOptions extends ConfirmOptions {
  readonly standard: string;
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
  const { proposalToBeLoaded } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(files.logbook, context);
  const proposal = await readDocumentFile(files.proposal, "boothkeep.proposal", context);
  const standard = await readDocumentFile(options.standard, "boothkeep.standard", context);
  const beside = files.proposal.replace(/\.proposal\.json$/, ".configuration.json");
  const isProposed = proposal.configurationSha256 !== null;
  const proposed = isProposed ? await readConfigurationFile(beside, context) : undefined;
  const configuration = await readConfigurationFile(files.readBack, context);
  const toBeLoaded = proposalToBeLoaded(logbook, {
    proposal,
    standard,
    proposed,
    readBack: configuration,
    names: { proposal: files.proposal, proposed: beside, readBack: files.readBack },
  });
  await confirmAndSay({ configuration, logbook, folder: files.logbook }, toBeLoaded, options, context);
}
