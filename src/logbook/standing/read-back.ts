import type { Sha256 } from "../../base/canonical/index.ts";
import type { Entry } from "../../model/index.ts";
import type { PartShelf } from "../medium/index.ts";
import { type NamedEntry, nameOf, type ReadBack } from "./standing.ts";

/** Names of the attachments by which an entry says that it is what a unit was read back to hold, or was ticked to hold. */
export const CONFIRMATION_ATTACHMENT = "confirmation.json";
export const TICKED_SHEET_ATTACHMENT = "ticked-sheet.json";

/** What an entry itself says of a loading. */
export interface OwnReadBack {
  readonly readBack: Exclude<ReadBack, { kind: "none" }>;
  /** The entry that was to be loaded, where it names one. */
  readonly intended?: { readonly entryId?: string; readonly sha256: string };
}

/** What an entry says of the loading that it records; undefined for an entry that records none. */
export function ownReadBack(
  item: { readonly id: Sha256; readonly entry: Entry },
  parts: PartShelf,
): OwnReadBack | undefined {
  const { attachments = [] } = item.entry;
  const attached = attachments.find(
    ({ name }) => name === CONFIRMATION_ATTACHMENT || name === TICKED_SHEET_ATTACHMENT,
  );
  if (attached === undefined) return undefined;
  const entry = nameOf(item);
  const document = parsed(parts.read(attached.sha256));
  const read =
    attached.name === CONFIRMATION_ATTACHMENT
      ? confirmed(document, item.entry, entry)
      : ticked(document, item.entry, entry);
  return read ?? { readBack: { kind: "unknown", entry } };
}

interface Confirmed {
  readonly kind?: unknown;
  readonly verdict?: unknown;
  readonly counts?: { readonly differing?: unknown };
  readonly readBack?: { readonly sha256?: unknown };
  readonly intended?: { readonly entryId?: unknown; readonly sha256?: unknown };
  readonly tickedBy?: unknown;
  readonly tickedAt?: unknown;
  readonly notChecked?: unknown;
}

function confirmed(document: Confirmed | undefined, { configuration }: Entry, entry: NamedEntry) {
  // One that is about another read-back proves nothing of this one.
  if (document?.kind !== "boothkeep.confirmation" || document.readBack?.sha256 !== configuration)
    return undefined;
  const intended = intendedOf(document);
  const differences = document.counts?.differing;
  switch (document.verdict) {
    case "equal":
    case "within-steps":
      return {
        readBack: { kind: "agrees", entry, withinSteps: document.verdict !== "equal" },
        intended,
      } as const;
    case "differs":
      return {
        readBack: { kind: "differs", entry, differences: typeof differences === "number" ? differences : 0 },
        intended,
      } as const;
    default:
      return undefined;
  }
}

function ticked(document: Confirmed | undefined, { configuration }: Entry, entry: NamedEntry) {
  if (document?.kind !== "boothkeep.ticked-sheet" || document.intended?.sha256 !== configuration)
    return undefined;
  const { tickedBy, tickedAt, notChecked } = document;
  if (typeof tickedBy !== "string" || typeof tickedAt !== "string" || !Array.isArray(notChecked))
    return undefined;
  const readBack = { kind: "ticked", entry, tickedBy, tickedAt, notChecked: notChecked.map(String) } as const;
  return { readBack, intended: intendedOf(document) };
}

function intendedOf({ intended }: Confirmed): { readonly entryId?: string; readonly sha256: string } {
  const { entryId, sha256 } = intended ?? {};
  return {
    sha256: typeof sha256 === "string" ? sha256 : "",
    ...(typeof entryId === "string" && { entryId }),
  };
}

function parsed(bytes: Uint8Array | undefined): Confirmed | undefined {
  if (bytes === undefined) return undefined;
  try {
    const value: unknown = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
    return typeof value === "object" && value !== null ? value : undefined;
  } catch {
    return undefined;
  }
}

/**
 * The last read-back that differs and that nothing after it has put right: only another read-back does, or another unit in
 * its place. A ticked sheet of the same unit does not.
 */
export function unsettledReadBack(
  items: readonly { readonly entry: Entry; readonly own: OwnReadBack | undefined }[],
): (ReadBack & { readonly kind: "differs" }) | undefined {
  let unsettled:
    | { readonly readBack: ReadBack & { kind: "differs" }; readonly unit: Entry["unit"] }
    | undefined;
  for (const { entry, own } of items) {
    const readBack = own?.readBack;
    if (readBack?.kind === "differs") unsettled = { readBack, unit: entry.unit };
    else if (readBack?.kind === "agrees") unsettled = undefined;
    else if (readBack?.kind === "ticked" && isOtherUnit(entry.unit, unsettled?.unit)) unsettled = undefined;
  }
  return unsettled?.readBack;
}

function isOtherUnit(a: Entry["unit"], b: Entry["unit"] | undefined): boolean {
  return a.profileId !== b?.profileId || a.serial !== b.serial;
}
