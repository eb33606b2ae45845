import { sha256 } from "../../base/canonical/index.ts";
import { naturalOrder } from "../../base/text/index.ts";
import type {
  Audit,
  AuditCheck,
  AuditCheckName,
  AuditCount,
  AuditedScreen,
  AuditLayout,
  AuditState,
} from "../../model/index.ts";
import { twinChecks } from "../likeness/index.ts";
import type { AuditRow } from "./audit-screen.ts";

/** The checks in the order of the columns. */
export const AUDIT_CHECKS: readonly AuditCheckName[] = [
  "readable",
  "recorded",
  "valid",
  "standard",
  "signed",
  "as-left",
  "firmware",
  "doubles",
  "calibration",
  "twins",
];

/** When an audit was made, and what counts as old. */
export interface AssembleOptions {
  /** RFC 3339 with offset. */
  readonly auditedAt: string;
  readonly staleAfterDays: number;
  readonly calibrationDays: number;
  readonly standards: Audit["standards"];
  /** Layouts of the audit from which rows are taken over. */
  readonly layouts?: Audit["layouts"];
}

/** Puts rows together to an audit: adds what depends on the date and on the other screens. */
export function assembleAudit(made: readonly AuditRow[], options: AssembleOptions): Audit {
  const { rows, layouts } = withLayouts(made, options.layouts ?? []);
  const doubles = doublesAmong(rows);
  const twins = twinChecks(rows, layouts);
  const screens = rows
    .map((row, index) => completed(row, options, { doubles: doubles.get(index) ?? [], twins: twins[index]! }))
    .sort((a, b) => naturalOrder(a.siteId, b.siteId) || naturalOrder(a.screenId, b.screenId));
  return {
    kind: "boothkeep.audit",
    schemaVersion: "1.0.0",
    auditedAt: options.auditedAt,
    staleAfterDays: options.staleAfterDays,
    calibrationDays: options.calibrationDays,
    standards: options.standards,
    screens,
    layouts,
    counts: AUDIT_CHECKS.map((check) => countOf(check, screens)),
  };
}

/** The rows with what is compared with their twins, and the places in lists that stand once. */
function withLayouts(
  rows: readonly AuditRow[],
  earlier: readonly AuditLayout[],
): { readonly rows: readonly AuditedScreen[]; readonly layouts: readonly AuditLayout[] } {
  const known = new Map(earlier.map((layout) => [layout.id, layout]));
  const ids = new Map<string, string>();
  const used = new Set<string>();
  const settled = rows.map(({ print, ...row }): AuditedScreen => {
    if (print !== undefined) {
      const text = print.places.join("\n");
      const layout = ids.get(text) ?? sha256(text);
      ids.set(text, layout);
      known.set(layout, { id: layout, places: print.places });
      used.add(layout);
      return { ...row, house: { twins: print.twins, layout, values: print.values } };
    }
    if (row.house !== undefined) used.add(row.house.layout);
    return row;
  });
  return { rows: settled, layouts: [...used].sort().flatMap((id) => known.get(id) ?? []) };
}

/** Checks that are made anew in every audit. */
const OF_THE_DAY: ReadonlySet<AuditCheckName> = new Set(["recorded", "doubles", "twins"]);
const TOO_OLD = "; older than";

function completed(
  row: AuditedScreen,
  options: AssembleOptions,
  { doubles, twins }: { readonly doubles: readonly string[]; readonly twins: AuditCheck },
): AuditedScreen {
  const kept = row.checks.filter(({ check }) => !OF_THE_DAY.has(check));
  const all: readonly AuditCheck[] = [
    ...kept.map((check) => (check.check === "calibration" ? aged(check, row, options) : check)),
    recorded(row, options),
    {
      check: "doubles",
      state: doubles.length === 0 ? "good" : "warning",
      words: doubles.length === 0 ? "Serial number and addresses are its own." : doubles.join(" "),
      ...(doubles.length > 0 && { count: doubles.length }),
    },
    twins,
  ];
  const order = ({ check }: AuditCheck) => AUDIT_CHECKS.indexOf(check);
  return { ...row, checks: [...all].sort((a, b) => order(a) - order(b)) };
}

function recorded(
  { lastEntryAt }: AuditedScreen,
  { auditedAt, staleAfterDays }: AssembleOptions,
): AuditCheck {
  const check = "recorded";
  if (lastEntryAt === null) return { check, state: "error", words: "Nothing was ever recorded." };
  const days = daysBetween(lastEntryAt, auditedAt);
  const words = `${days} ${days === 1 ? "day" : "days"} ago, on ${lastEntryAt.slice(0, 10)}.`;
  return { check, state: days > staleAfterDays ? "warning" : "good", words, count: days };
}

/** A good calibration becomes old by itself; what an earlier audit said of its age is taken off first. */
function aged(
  check: AuditCheck,
  { calibratedOn }: AuditedScreen,
  { auditedAt, calibrationDays }: AssembleOptions,
): AuditCheck {
  const [words] = check.words.split(TOO_OLD);
  const wasAged = words !== check.words;
  const state: AuditState = wasAged ? "good" : check.state;
  const plain = { ...check, state, words: wasAged ? `${words}.` : check.words };
  if (calibratedOn === null || state !== "good") return plain;
  if (daysBetween(`${calibratedOn}T00:00:00Z`, auditedAt) <= calibrationDays) return plain;
  return {
    ...plain,
    state: "advice",
    words: `${plain.words.replace(/\.$/, "")}${TOO_OLD} ${calibrationDays} days.`,
  };
}

function daysBetween(from: string, to: string): number {
  return Math.max(0, Math.floor((Date.parse(to) - Date.parse(from)) / 86_400_000));
}

/** Serial numbers that stand twice anywhere, addresses that stand twice at one site; by the position of the row. */
function doublesAmong(rows: readonly AuditedScreen[]): ReadonlyMap<number, readonly string[]> {
  const uses = new Map<string, number[]>();
  const use = (key: string, index: number) => uses.set(key, [...(uses.get(key) ?? []), index]);
  for (const [index, { siteId, profileId, serial, addresses }] of rows.entries()) {
    if (serial !== "") use(`serial number\n${profileId}\n${serial}`, index);
    for (const address of new Set(addresses)) use(`address\n${siteId}\n${address}`, index);
  }
  const found = new Map<number, string[]>();
  for (const [key, indices] of uses) {
    if (indices.length < 2) continue;
    const [what, , value] = key.split("\n");
    for (const index of indices) {
      const others = indices
        .filter((other) => other !== index)
        .map((other) => `${rows[other]!.siteId}/${rows[other]!.screenId}`);
      const words = `The ${what} ${value} is also that of ${others.slice(0, 3).join(", ")}.`;
      found.set(index, [...(found.get(index) ?? []), words]);
    }
  }
  return found;
}

function countOf(check: AuditCheckName, screens: readonly AuditedScreen[]): AuditCount {
  const count = { check, good: 0, advice: 0, warning: 0, error: 0, unknown: 0, none: 0 };
  for (const { checks } of screens) {
    const found = checks.find((item) => item.check === check);
    count[found?.state ?? "unknown"] += 1;
  }
  return count;
}
