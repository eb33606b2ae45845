import {
  type AttachedFile,
  CONFIRMATION_ATTACHMENT,
  type KeptDocument,
  type Logbook,
  type RecordedEntry,
  type RecordOptions,
  record,
} from "../../logbook/entries/index.ts";
import { confirmReadBack } from "../../logbook/restore/index.ts";
import type { Configuration, Confirmation, UnitProfile } from "../../model/index.ts";
import { PROPOSAL_ATTACHMENT, STANDARD_ATTACHMENT } from "../screens/applied-standards.ts";
import type { ToBeLoaded } from "./to-be-loaded.ts";

/** The unit that was read back, and who records it. */
export interface ConfirmLoadingOptions
  extends Pick<RecordOptions, "recordedAt" | "recordedBy" | "notes" | "key"> {
  /** Profile of the unit that was read back: its steps decide what counts as equal. */
  readonly profile: UnitProfile;
}

/** What the read-back came to, and what was recorded of it. */
export interface ConfirmedLoading {
  readonly confirmation: Confirmation;
  /** The new entry; undefined where nothing was recorded. */
  readonly recorded: RecordedEntry | undefined;
}

/**
 * Compares what a unit holds after loading with what was to be loaded, and records what was read back with the comparison
 * attached. A standard counts as applied only where the unit holds what was proposed: else nothing is recorded.
 *
 * @throws BoothkeepError as `confirmReadBack` and `record` do
 */
export function confirmLoading(
  logbook: Logbook,
  readBack: Configuration,
  toBeLoaded: ToBeLoaded,
  options: ConfirmLoadingOptions,
): ConfirmedLoading {
  const { configuration, entryId } = toBeLoaded;
  const { profile, notes, ...circumstances } = options;
  const confirmation = confirmReadBack(configuration, readBack, {
    profile,
    ...(entryId !== undefined && { entryId }),
  });
  const kept = whatToRecord(confirmation, toBeLoaded);
  const recorded =
    kept &&
    record(logbook, {
      configuration: readBack as unknown as KeptDocument,
      reason: kept.reason,
      notes: notes === undefined ? kept.words : `${kept.words}\n${notes}`,
      attachments: [...kept.attachments, attachment(CONFIRMATION_ATTACHMENT, confirmation)],
      documents: { profile: profile as unknown as KeptDocument },
      ...circumstances,
    });
  return { confirmation, recorded };
}

interface ToRecord {
  readonly reason: RecordOptions["reason"];
  readonly words: string;
  readonly attachments: readonly AttachedFile[];
}

function whatToRecord(
  confirmation: Confirmation,
  { configuration, applied }: ToBeLoaded,
): ToRecord | undefined {
  if (applied === undefined) {
    return {
      reason: "after-swap",
      words: swapWords(confirmation),
      attachments: [attachment("to-be-loaded.json", configuration)],
    };
  }
  if (confirmation.verdict === "differs") return undefined;
  const { standard, proposal } = applied;
  return {
    reason: "standard-applied",
    words: `Standard ${standard.id} ${standard.version} applied; the unit was read back.`,
    attachments: [attachment(STANDARD_ATTACHMENT, standard), attachment(PROPOSAL_ATTACHMENT, proposal)],
  };
}

function swapWords({ verdict, counts, intended }: Confirmation): string {
  const words = {
    equal: "holds what was to be loaded",
    "within-steps": `holds what was to be loaded; ${counts.withinSteps} numbers rounded to the unit's steps`,
    differs: `does not hold what was to be loaded: ${counts.differing} differences`,
  }[verdict];
  const of = intended.entryId === undefined ? "" : ` (entry ${intended.entryId})`;
  return `Read back after loading: ${words}${of}.`;
}

function attachment(name: string, document: unknown): AttachedFile {
  return { name, bytes: new TextEncoder().encode(`${JSON.stringify(document, null, 2)}\n`) };
}
