import { isCanonical, type Sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Entry } from "../../model/index.ts";
import {
  configurationResolver,
  type KeptDocument,
  type ResolveConfiguration,
  withStore,
} from "../medium/index.ts";
import type { StandingGround } from "./ground.ts";
import type { JudgedScreen } from "./judge-screen.ts";
import type { HistoryItem, Refusal } from "./standing.ts";

/** An entry that was found whole, with its configuration. */
export interface CheckedEntry extends HistoryItem {
  /** The configuration as it was recorded, of whatever schema version. */
  readonly configuration: KeptDocument;
  /** Its RFC 8785 text. */
  readonly canonicalText: string;
}

/** Checks entries of one screen; what their configurations have in common is put together once. */
export type CheckEntry = (item: HistoryItem) => CheckedEntry | Refusal;

/**
 * The check of a screen's entries: the entry with its configuration, or why it has none that can be trusted. Its records were
 * judged by {@link judgeScreen}; whether the policy lets it be loaded, and whether it was withdrawn, its standing says.
 */
export function entryCheck({ logbook, references }: StandingGround, { records }: JudgedScreen): CheckEntry {
  const resolve: ResolveConfiguration = configurationResolver(logbook.store, records, references);
  return (item) => {
    const resolved = withStore(logbook.store, "", () => resolve(item.entry.configuration));
    if (resolved === undefined) return lost(item.entry);
    const configuration = parsed(resolved.text);
    if (configuration === undefined || !isCanonical(configuration, resolved.text))
      return notCanonical(item.entry);
    const refusal = subjectRefusal(item.entry, configuration);
    return refusal ?? { ...item, configuration, canonicalText: resolved.text };
  };
}

/** Whether a check came to a reason against the entry. */
export function isRefusal(checked: CheckedEntry | Refusal): checked is Refusal {
  return !("entry" in checked);
}

/** A reason as an error, to be thrown. */
export function refusalError({ code, words, next }: Refusal, id: Sha256): BoothkeepError {
  return new BoothkeepError(code, words, { place: { id }, next });
}

/** Why a configuration is not the one of an entry's own screen and unit; undefined where it is. */
export function subjectRefusal(entry: Entry, configuration: KeptDocument): Refusal | undefined {
  const { screen, unit } = configuration as {
    readonly screen?: { readonly siteId?: unknown; readonly screenId?: unknown };
    readonly unit?: { readonly profileId?: unknown; readonly serial?: unknown };
  };
  const isOwn =
    screen?.siteId === entry.siteId &&
    screen.screenId === entry.screenId &&
    unit?.profileId === entry.unit.profileId &&
    unit.serial === entry.unit.serial;
  if (isOwn) return undefined;
  return {
    code: "logbook.other-screen",
    words: `Entry ${entry.number} of ${entry.siteId} / ${entry.screenId} names a configuration of another screen or unit (${String(screen?.siteId)} / ${String(screen?.screenId)}, ${String(unit?.profileId)}, serial number ${String(unit?.serial)}).`,
    next: "Do not load it. Find out who wrote it; record the screen again.",
  };
}

function lost(entry: Entry): Refusal {
  return {
    code: "logbook.lost-configuration",
    words: `The configuration of entry ${entry.number} of ${entry.siteId} / ${entry.screenId} cannot be put together: something it rests on is missing or damaged.`,
    next: "Heal the logbook from another copy ('boothkeep verify --heal-from OTHER'), or take it from a handover pack.",
  };
}

function notCanonical(entry: Entry): Refusal {
  return {
    code: "logbook.not-canonical",
    words: `The configuration of entry ${entry.number} of ${entry.siteId} / ${entry.screenId} is not in the form in which every boothkeep writes it.`,
    next: "Do not load it. Find out who wrote it; record the screen again.",
  };
}

function parsed(text: string): KeptDocument | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === "object" && value !== null && !Array.isArray(value)
      ? (value as KeptDocument)
      : undefined;
  } catch {
    return undefined;
  }
}
