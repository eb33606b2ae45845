import { BoothkeepError } from "../../base/errors/index.ts";
import type { AppliedStandard, Snapshot } from "../../fleet/drift/index.ts";
import { type HistoryItem, type Logbook, readAttachment } from "../../logbook/entries/index.ts";
import { type Proposal, readDocument } from "../../model/index.ts";

/** Names of the attachments by which an entry says which standard was applied, and what was proposed and decided. */
export const STANDARD_ATTACHMENT = "standard.json";
export const PROPOSAL_ATTACHMENT = "proposal.json";

/**
 * The standards that were applied to a screen, in their order, with what was decided.
 *
 * @param items the screen's entries
 * @param snapshots the same with their configurations
 */
export function appliedStandards(
  logbook: Logbook,
  items: readonly HistoryItem[],
  snapshots: readonly Snapshot[],
): readonly AppliedStandard[] {
  return items.flatMap(({ entry }, index): readonly AppliedStandard[] => {
    if (entry.reason !== "standard-applied") return [];
    const attached = entry.attachments?.find(({ name }) => name === PROPOSAL_ATTACHMENT);
    const proposal = attached && readProposal(logbook, attached.sha256);
    if (proposal === undefined) return [];
    const { entryId, number, recordedAt, recordedBy, read } = snapshots[index]!;
    return [{ entryId, number, recordedAt, recordedBy, proposal, configuration: read }];
  });
}

/** Undefined where it is lost, damaged, or of another kind: then nobody can say what was decided. */
function readProposal(logbook: Logbook, sha256: string): Proposal | undefined {
  try {
    const bytes = readAttachment(logbook, sha256 as Parameters<typeof readAttachment>[1]);
    return readDocument(bytes, { expect: "boothkeep.proposal" }).document;
  } catch (error) {
    if (error instanceof BoothkeepError) return undefined;
    throw error;
  }
}
