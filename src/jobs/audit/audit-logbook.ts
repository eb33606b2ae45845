import { canonicalHash, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import { type AuditEntry, type AuditRow, auditScreen, type ScreenDamage } from "../../fleet/audit/index.ts";
import { compileStandard } from "../../fleet/standard/index.ts";
import {
  type HistoryItem,
  type Logbook,
  logbookScreens,
  profileOfEntry,
  readPolicy,
  unseenWords,
} from "../../logbook/entries/index.ts";
import {
  type Configuration,
  type RuleSettings,
  readProfile,
  type Standard,
  type UnitProfile,
} from "../../model/index.ts";
import type { JobOptions } from "../job-options.ts";
import { appliedStandards } from "../screens/applied-standards.ts";
import { readScreenHistory } from "../screens/screen-history.ts";

/** What rows of an audit rest on besides the screens' records. */
export interface AuditGround {
  readonly standards: readonly Standard[];
  readonly profiles: readonly UnitProfile[];
  readonly settings?: RuleSettings | undefined;
  /** Version of this program, for the rule book is part of it. */
  readonly programVersion: string;
}

/** A screen of a logbook, not read yet, with what tells whether an earlier row still holds; plain data. */
export interface ScreenInAudit {
  /** As `LogbookScreen.folder`. */
  readonly folder: string;
  /** SHA-256 over all that its row rests on. */
  readonly basis: string;
}

/** The screens of a logbook; nothing but names of files is read. */
export function screensToAudit(logbook: Logbook, ground: AuditGround): readonly ScreenInAudit[] {
  const { findings: _findings, ...policy } = readPolicy(logbook);
  const common = canonicalHash({
    standards: ground.standards.map((item) => canonicalHash(item)),
    profiles: ground.profiles.map((item) => canonicalHash(item)).sort(),
    settings: ground.settings === undefined ? null : canonicalHash(ground.settings),
    policy: JSON.stringify(policy),
    programVersion: ground.programVersion,
  });
  return [...logbookScreens(logbook)].map((screen) => ({
    folder: screen.folder,
    basis: sha256(`${common}\n${screen.mark}`),
  }));
}

/**
 * The rows of an earlier audit that are taken over, since nothing changed that they rest on, and the screens that are to be
 * audited anew.
 */
export function rowsToKeep(
  screens: readonly ScreenInAudit[],
  earlier: readonly AuditRow[],
  logbookName: string,
): { readonly kept: readonly AuditRow[]; readonly open: readonly ScreenInAudit[] } {
  const known = new Map(earlier.map((row) => [row.basis, row]));
  return {
    kept: screens.flatMap(({ basis }) => {
      const row = known.get(basis);
      return row === undefined ? [] : [{ ...row, logbook: logbookName }];
    }),
    open: screens.filter(({ basis }) => !known.has(basis)),
  };
}

/** Audits screens one after the other; what was read of one is let go before the next. */
export function* auditLogbook(
  logbook: Logbook,
  screens: readonly ScreenInAudit[],
  { signal, onDone, ...ground }: AuditGround & JobOptions & { readonly logbookName: string },
): Generator<AuditRow, void> {
  const policy = readPolicy(logbook);
  const profiles = new Map(ground.profiles.map((profile) => [profile.id, profile]));
  const options = {
    profileOf: (id: string) => profiles.get(id),
    standards: ground.standards.map(compileStandard),
    settings: ground.settings,
    needsSignature: policy.restoreNeedsSignature,
  };
  const bases = new Map(screens.map(({ folder, basis }) => [folder, basis]));
  for (const screen of logbookScreens(logbook, { folders: [...bases.keys()] })) {
    signal?.throwIfAborted();
    const { folder } = screen;
    const basis = bases.get(folder)!;
    const { siteId, screenId, items, snapshots, findings, note, attachment } = readScreenHistory(screen);
    const entries = items.map((item, index): AuditEntry => {
      const { read, ...entry } = snapshots[index]!;
      const { readBack, signature } = item.standing;
      const hasFailed = readBack.kind === "differs" && readBack.entry.id === item.id;
      return { ...entry, signature, hasFailed, read: orLost(read) };
    });
    const unseen = note && unseenWords(`${siteId} / ${screenId}`, note.unseen);
    const damage: ScreenDamage = {
      findings,
      ...(unseen !== undefined && { unseen }),
      ...(note?.unsettled !== undefined && { unsettled: note.unsettled }),
    };
    const kept = remembered((id: string) => keptWith(items, id, attachment));
    const applied = () => appliedStandards(logbook, items, snapshots);
    yield auditScreen(
      { logbook: ground.logbookName, folder, basis, siteId, screenId, entries, damage, applied },
      { ...options, profileOf: (id) => options.profileOf(id) ?? kept(id) },
    );
    onDone?.(`${siteId}/${screenId}`);
  }
}

/** The profile that the newest entry keeps which has it; undefined where none does. */
function keptWith(
  items: readonly HistoryItem[],
  profileId: string,
  attachment: (sha256: string) => Uint8Array | undefined,
): UnitProfile | undefined {
  for (const { entry } of items.toReversed()) {
    const document = entry.unit.profileId === profileId ? profileOfEntry(entry, attachment) : undefined;
    if (document !== undefined) return readProfile(JSON.stringify(document)).document;
  }
  return undefined;
}

function remembered<T>(read: (id: string) => T): (id: string) => T {
  const known = new Map<string, T>();
  return (id) => {
    if (!known.has(id)) known.set(id, read(id));
    return known.get(id)!;
  };
}

/** A configuration that does not fit its schema any more is as good as lost: the audit says so and goes on. */
function orLost(read: () => Configuration | undefined): () => Configuration | undefined {
  return () => {
    try {
      return read();
    } catch (error) {
      if (error instanceof BoothkeepError) return undefined;
      throw error;
    }
  };
}
