import { isDeepStrictEqual } from "node:util";
import type { Finding } from "../../base/findings/index.ts";
import { changesBetween } from "../../diff/changes/index.ts";
import type {
  AuditCheck,
  AuditedScreen,
  AuditState,
  Configuration,
  RuleSettings,
  UnitProfile,
} from "../../model/index.ts";
import { holdsForFirmware } from "../../profile/index.ts";
import { validateConfiguration } from "../../rules/index.ts";
import { counted } from "../../words/index.ts";
import {
  type AppliedStandard,
  acceptanceOf,
  countedBy,
  deviationsSince,
  entryWords,
  type Since,
  type Snapshot,
  sinceOf,
  sinceWords,
} from "../drift/index.ts";
import { type HousePrint, housePrint } from "../likeness/index.ts";
import {
  type CompiledStandard,
  deviationsFrom,
  deviationWords,
  isForScreen,
  unitSteps,
} from "../standard/index.ts";

/** One entry of a screen. */
export interface AuditEntry extends Snapshot {
  /** `trusted`: by a key that the policy lists; `broken`: a signature does not hold. */
  readonly signature: "trusted" | "retired-key" | "unknown-key" | "broken" | "none";
  /** True: it is what a unit was read back to hold, and that was not what was to be loaded. */
  readonly hasFailed?: boolean;
}

/** What is wrong with the records of a screen, and with what is known of its unit. */
export interface ScreenDamage {
  /** What could not be read or trusted among the records. */
  readonly findings: readonly Finding[];
  /** What cannot be seen, as a sentence: records that are missing or damaged. */
  readonly unseen?: string;
  /** The last read-back that differs, until a later one agrees. */
  readonly unsettled?: {
    readonly entry: { readonly number: number; readonly recordedAt: string };
    readonly differences: number;
  };
}

/** All that is known of a screen. */
export interface ScreenToAudit {
  readonly logbook: string;
  readonly folder: string;
  readonly basis: string;
  readonly siteId: string;
  readonly screenId: string;
  /** In their order, without withdrawn ones. */
  readonly entries: readonly AuditEntry[];
  readonly damage: ScreenDamage;
  /** Standards that were applied to it, with what was decided; read when they are asked for. */
  readonly applied?: () => readonly AppliedStandard[];
}

export interface AuditScreenOptions {
  readonly profileOf: (id: string) => UnitProfile | undefined;
  readonly standards: readonly CompiledStandard[];
  readonly settings?: RuleSettings | undefined;
  /** Whether the policy asks for signatures. */
  readonly needsSignature: boolean;
}

/** A row before it is put together with others. */
export interface AuditRow extends AuditedScreen {
  /** What is compared with its twins; absent in a row that is taken over, which has its `house` already. */
  readonly print?: HousePrint;
}

/** What there is to say of one screen whatever the date; {@link assembleAudit} adds what depends on it and on others. */
export function auditScreen(screen: ScreenToAudit, options: AuditScreenOptions): AuditRow {
  const { entries, logbook, folder, basis, siteId, screenId } = screen;
  const latest = entries.at(-1);
  const configuration = latest?.read();
  const asLeft = entries.findLast(({ reason, hasFailed }) => AS_LEFT.has(reason) && hasFailed !== true);
  const own = configuration && { screen, configuration, latest: latest!, asLeft, ...options };
  return {
    logbook,
    folder,
    basis,
    siteId,
    siteName: configuration?.screen.siteName ?? siteId,
    screenId,
    screenName: configuration?.screen.screenName ?? screenId,
    profileId: configuration?.unit.profileId ?? "",
    serial: configuration?.unit.serial ?? "",
    firmware: configuration?.unit.firmware ?? "",
    addresses: (configuration?.network.interfaces ?? []).flatMap(({ address }) => address ?? []),
    entries: entries.length,
    lastEntryAt: latest?.recordedAt ?? null,
    asLeftAt: asLeft?.recordedAt ?? null,
    calibratedOn: configuration?.calibration?.date ?? null,
    ...(configuration !== undefined && { print: housePrint(configuration) }),
    checks: [
      readable(screen, configuration),
      ...(own === undefined
        ? []
        : [valid(own), standard(own), signed(own), unchanged(own), firmware(own), calibration(own)]),
    ],
  };
}

/** Reasons of entries that say how a screen ought to be. */
const AS_LEFT: ReadonlySet<string> = new Set(["as-left", "after-swap", "standard-applied"]);

interface Subject extends AuditScreenOptions {
  readonly screen: ScreenToAudit;
  readonly configuration: Configuration;
  readonly latest: AuditEntry;
  readonly asLeft: AuditEntry | undefined;
}

/** What is said of a screen that has no entry: nothing is damaged there. */
export const NO_ENTRY = "There is no entry.";

function readable({ damage, entries }: ScreenToAudit, configuration: Configuration | undefined): AuditCheck {
  const check = "readable";
  if (damage.unseen !== undefined) return { check, state: "error", words: damage.unseen };
  if (entries.length === 0) return { check, state: "error", words: NO_ENTRY };
  if (configuration === undefined) {
    return { check, state: "error", words: "The last entry's configuration cannot be read." };
  }
  const { findings } = damage;
  // A foreign file that comes first must not hide what is damaged.
  const worst = findings.find(({ severity }) => severity === "error") ?? findings[0];
  if (worst === undefined) return { check, state: "good", words: "All records are whole." };
  return { check, state: worst.severity, words: worst.words, count: findings.length };
}

function valid({ configuration, profileOf, settings: _settings }: Subject): AuditCheck {
  const check = "valid";
  const profile = profileOf(configuration.unit.profileId);
  // Without a date: what depends on the day is told by other columns, so that rows can be taken over on another day.
  const findings = validateConfiguration(configuration, { profile, settings: _settings });
  const serious = findings.filter(({ severity }) => severity !== "advice");
  const [first] = findings;
  if (profile === undefined) {
    return { check, state: "unknown", words: "The unit profile is not at hand.", count: serious.length };
  }
  if (first === undefined) return { check, state: "good", words: "The rule book finds nothing." };
  const words = `${counted(findings.length, "finding")}; first: ${first.place.words}: ${first.words}`;
  return { check, state: first.severity, words, count: findings.length };
}

function standard({ configuration, standards, profileOf, screen }: Subject): AuditCheck {
  const check = "standard";
  const own = standards.filter((item) => isForScreen(item.standard, configuration));
  if (own.length === 0) return { check, state: "none", words: "No standard is for this screen." };
  const settle = unitSteps(configuration, profileOf(configuration.unit.profileId));
  const held = own.map((item) => deviationsFrom(configuration, item, settle));
  const names = own.map(nameOf).join(", ");
  if (held.flat().length === 0) return { check, state: "good", words: `Follows ${names}.` };
  const applied = screen.applied?.() ?? [];
  const open = held.map((deviations, index) =>
    deviations.filter((deviation) => acceptanceOf(deviation, applied, own[index]!.standard) === undefined),
  );
  const off = open.flat();
  const accepted = held.flat().length - off.length;
  const byDecision = accepted === 0 ? "" : ` Otherwise by decision at ${counted(accepted, "place")}.`;
  if (off.length === 0) return { check, state: "good", words: `Follows ${names}.${byDecision}` };
  const since = countedBy(
    open.flatMap((deviations) => [...deviationsSince(screen.entries, deviations, settle).values()]),
  );
  const told = off.slice(0, MOST_PLACES).map((deviation) => {
    const { words, label } = deviationWords(configuration, deviation);
    return `${words}, ${label}`;
  });
  const more = off.length > MOST_PLACES ? " and more" : "";
  const words = `Off ${names} at ${counted(off.length, "place")}: ${told.join("; ")}${more}; ${sinceWords(since)}.${byDecision}`;
  return { check, state: "warning", words, count: off.length, since };
}

const MOST_PLACES = 3;

function nameOf({ standard: { id, version } }: CompiledStandard): string {
  return `${id} ${version}`;
}

function signed({ latest, needsSignature }: Subject): AuditCheck {
  const check = "signed";
  const lacking: AuditState = needsSignature ? "warning" : "advice";
  switch (latest.signature) {
    case "trusted":
      return { check, state: "good", words: "The last entry is signed by a trusted key." };
    case "unknown-key":
      return {
        check,
        state: lacking,
        words: "The last entry is signed, but by no key that is trusted here.",
      };
    case "retired-key":
      return { check, state: lacking, words: "The last entry is signed with a key that was retired." };
    case "broken":
      return { check, state: "error", words: "A signature of the last entry does not hold." };
    case "none":
      return { check, state: lacking, words: "The last entry is not signed." };
  }
}

function unchanged({ configuration, latest, asLeft, screen }: Subject): AuditCheck {
  const check = "as-left";
  const { unsettled } = screen.damage;
  if (unsettled !== undefined) {
    const { number, recordedAt } = unsettled.entry;
    const words = `The last read-back (entry ${number}, ${recordedAt.slice(0, 10)}) differs from what was to be loaded in ${counted(unsettled.differences, "value")}; no later one agrees.`;
    return { check, state: "error", words, count: unsettled.differences };
  }
  if (asLeft === undefined)
    return { check, state: "advice", words: "No entry says how the screen was left." };
  if (asLeft.sha256 === latest.sha256) return { check, state: "good", words: "As it was left." };
  const left = asLeft.read();
  if (left === undefined) return { check, state: "unknown", words: "The entry as left cannot be read." };
  const { changes, renames } = changesBetween(left, configuration);
  const count = changes.length + renames.length;
  if (count === 0) return { check, state: "good", words: "As it was left." };
  // Without a break: what was changed and put back, and changed again later, counts from then.
  const after = screen.entries.slice(
    screen.entries.findLastIndex(({ sha256 }) => sha256 === asLeft.sha256) + 1,
  );
  const since = [{ ...sinceOf(after[0] ?? latest, false), count }];
  const words = `${counted(count, "change")} since entry ${asLeft.number} of ${asLeft.recordedAt.slice(0, 10)}; first seen in ${entryWords(since[0]!)}.`;
  return { check, state: "warning", words, count, since };
}

function firmware({ configuration: { unit }, profileOf }: Subject): AuditCheck {
  const check = "firmware";
  const profile = profileOf(unit.profileId);
  if (profile === undefined) return { check, state: "unknown", words: "The unit profile is not at hand." };
  return holdsForFirmware(profile, unit.firmware)
    ? { check, state: "good", words: `${unit.firmware} is one that the profile knows.` }
    : { check, state: "warning", words: `${unit.firmware} is outside ${profile.firmwareRange}.` };
}

/** A calibration vouches for the EQ that was there when it was measured. */
function calibration({ configuration, screen }: Subject): AuditCheck {
  const check = "calibration";
  const measured = configuration.calibration;
  if (measured === undefined) return { check, state: "advice", words: "There is no calibration on record." };
  const set = equalizerSet(configuration, screen.entries);
  const on = set.recordedAt.slice(0, 10);
  if (on > measured.date && !set.fromTheStart) {
    const words = `Measured on ${measured.date}; the EQ changed by entry ${set.number} of ${on} (${set.recordedBy}).`;
    return { check, state: "warning", words, since: [{ ...set, count: 1 }] };
  }
  const words =
    on > measured.date
      ? `Measured on ${measured.date}; the EQ is the same in every entry.`
      : `Measured on ${measured.date}, after the EQ was set.`;
  return { check, state: "good", words };
}

/** The entry since which the EQ is as it is now. */
function equalizerSet(configuration: Configuration, entries: readonly AuditEntry[]): Since {
  let later = entries.at(-1)!;
  for (const entry of entries.toReversed()) {
    if (entry.sha256 !== later.sha256) {
      const before = entry.read();
      if (before === undefined) continue;
      if (!hasSameEqualizer(before, configuration)) return sinceOf(later, false);
    }
    later = entry;
  }
  return sinceOf(later, true);
}

/** Configurations of one history share what did not change, so that most of this is looking whether it is the same object. */
function hasSameEqualizer(a: Configuration, b: Configuration): boolean {
  const filters = ({ outputs }: Configuration) => outputs.map(({ id, filters, fir }) => [id, filters, fir]);
  return (
    isDeepStrictEqual(a.equalizations, b.equalizations) &&
    (a.outputs === b.outputs || isDeepStrictEqual(filters(a), filters(b)))
  );
}
