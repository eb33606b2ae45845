import { type AuditEntry, auditScreen } from "../audit/index.ts";
import { canonicalHash, sha256 } from "../canonical/index.ts";
import {
  type HistoryItem,
  judgeSignatures,
  type Logbook,
  type LogbookPolicy,
  type LogbookScreen,
  logbookScreens,
  readPolicy,
} from "../logbook/index.ts";
import {
  type AuditedScreen,
  type Configuration,
  type RuleSettings,
  readConfiguration,
  type Standard,
  type UnitProfile,
} from "../model/index.ts";
import { compileStandard } from "../standard/index.ts";
import { earlierConfiguration } from "./earlier-configuration.ts";

/** What rows of an audit rest on besides the screens' records. */
export interface AuditGround {
  readonly standards: readonly Standard[];
  readonly profiles: readonly UnitProfile[];
  readonly settings?: RuleSettings | undefined;
  /** Version of this program, for the rule book is part of it. */
  readonly programVersion: string;
}

/** A screen of a logbook, not read yet, with what tells whether an earlier row still holds. */
export interface ScreenInAudit {
  readonly folder: string;
  readonly basis: string;
  readonly screen: LogbookScreen;
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
    screen,
  }));
}

/** Audits screens one after the other; what was read of one is let go before the next. */
export function* auditLogbook(
  logbook: Logbook,
  screens: readonly ScreenInAudit[],
  ground: AuditGround & { readonly logbookName: string },
): Generator<AuditedScreen, void> {
  const policy = readPolicy(logbook);
  const profiles = new Map(ground.profiles.map((profile) => [profile.id, profile]));
  const options = {
    profileOf: (id: string) => profiles.get(id),
    standards: ground.standards.map(compileStandard),
    settings: ground.settings,
    needsSignature: policy.restoreNeedsSignature,
  };
  for (const { folder, basis, screen } of screens) {
    const { items, configurationText, findings } = screen.read();
    const [siteId, screenId] = idsOf(items, folder);
    const holding = items.filter(({ withdrawals }) => withdrawals.length === 0);
    const latest = readText(holding.length === 0 ? undefined : configurationText(holding.at(-1)!));
    const entries = holding.map((item, index) =>
      entryOf(item, policy, () => {
        if (index === holding.length - 1 || latest === undefined) return latest;
        return earlierConfiguration(configurationText(item), latest.schemaVersion);
      }),
    );
    const subject = {
      logbook: ground.logbookName,
      folder,
      basis,
      siteId,
      screenId,
      entries,
      damage: findings,
    };
    yield auditScreen(subject, options);
  }
}

function idsOf([first]: readonly HistoryItem[], folder: string): readonly [string, string] {
  const [site = folder, screen = folder] = folder.split("/");
  return first === undefined ? [site, screen] : [first.entry.siteId, first.entry.screenId];
}

function entryOf(
  item: HistoryItem,
  policy: LogbookPolicy,
  read: () => Configuration | undefined,
): AuditEntry {
  const { entry, signatures } = item;
  let known: { readonly configuration: Configuration | undefined } | undefined;
  return {
    number: entry.number,
    reason: entry.reason,
    recordedAt: entry.recordedAt,
    sha256: entry.configuration,
    get signature() {
      const kinds = judgeSignatures(entry, signatures, policy.trustedKeys).map(({ kind }) => kind);
      if (kinds.includes("broken")) return "broken" as const;
      if (kinds.includes("trusted")) return "trusted" as const;
      return kinds.length > 0 ? ("unknown-key" as const) : ("none" as const);
    },
    read: () => {
      known ??= { configuration: read() };
      return known.configuration;
    },
  };
}

/** A configuration that does not fit its schema any more is as good as lost: the audit says so and goes on. */
function readText(text: string | undefined): Configuration | undefined {
  try {
    return text === undefined ? undefined : readConfiguration(text).document;
  } catch {
    return undefined;
  }
}
