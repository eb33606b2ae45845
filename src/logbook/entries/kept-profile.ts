import type { Sha256 } from "../../base/canonical/index.ts";
import type { Entry } from "../../model/index.ts";
import { findPlaces, type KeptDocument, type Logbook, withStore } from "../medium/index.ts";
import { judgeScreen, standingGround } from "../standing/index.ts";
import { PROFILE_ATTACHMENT } from "./record.ts";

/** No unit profile is larger. */
const MOST_BYTES = 4 * 1024 * 1024;

/**
 * The unit profile that an entry keeps, under its own name or as any other JSON file that was attached.
 *
 * @param read the bytes of an attachment, checked; undefined where it is missing or damaged
 */
export function profileOfEntry(
  { unit, attachments = [] }: Entry,
  read: (sha256: Sha256) => Uint8Array | undefined,
): KeptDocument | undefined {
  const candidates = attachments
    .filter(({ name, sizeBytes }) => name.toLowerCase().endsWith(".json") && sizeBytes <= MOST_BYTES)
    .toSorted((a, b) => Number(b.name === PROFILE_ATTACHMENT) - Number(a.name === PROFILE_ATTACHMENT));
  for (const { sha256 } of candidates) {
    const document = parsed(read(sha256));
    if (document?.kind === "boothkeep.unit-profile" && document.id === unit.profileId) return document;
  }
  return undefined;
}

/**
 * A unit profile that a logbook keeps with its entries: that of the entry, else of the newest entry that has it, of the same
 * screen first. What it says is still to be validated.
 *
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function keptProfile(logbook: Logbook, profileId: string, entry?: Entry): KeptDocument | undefined {
  const ground = standingGround(logbook);
  const read = (sha256: Sha256) => withStore(logbook.store, "", () => ground.parts.read(sha256));
  if (entry?.unit.profileId === profileId) {
    const own = profileOfEntry(entry, read);
    if (own !== undefined) return own;
  }
  const { places } = findPlaces(logbook.store, entry && { siteId: entry.siteId, screenId: entry.screenId });
  const elsewhere = entry === undefined ? [] : findPlaces(logbook.store).places;
  for (const place of [...places, ...elsewhere]) {
    for (const item of judgeScreen(ground, place).items.toReversed()) {
      const own = item.entry.unit.profileId === profileId ? profileOfEntry(item.entry, read) : undefined;
      if (own !== undefined) return own;
    }
  }
  return undefined;
}

function parsed(bytes: Uint8Array | undefined): KeptDocument | undefined {
  if (bytes === undefined) return undefined;
  try {
    const value: unknown = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
    return typeof value === "object" && value !== null && !Array.isArray(value)
      ? (value as KeptDocument)
      : undefined;
  } catch {
    return undefined;
  }
}
