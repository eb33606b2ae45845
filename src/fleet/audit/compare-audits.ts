import type { Audit, AuditCheck, AuditedScreen, AuditState } from "../../model/index.ts";

/** A check of a screen that stands otherwise than in the audit before. */
export interface AuditChange {
  readonly siteId: string;
  readonly screenId: string;
  readonly check: AuditCheck["check"];
  readonly before: AuditState;
  readonly after: AuditState;
  /** What the later audit says. */
  readonly words: string;
}

/** What became of screens from one audit to the next. */
export interface AuditComparison {
  readonly from: string;
  readonly to: string;
  readonly better: readonly AuditChange[];
  readonly worse: readonly AuditChange[];
  /** Neither better nor worse: could be told on one side only. */
  readonly otherwise: readonly AuditChange[];
  /** "site/screen" */
  readonly newScreens: readonly string[];
  readonly goneScreens: readonly string[];
}

/** From the best to the worst; what cannot be told stands outside. */
const RANK: Readonly<Partial<Record<AuditState, number>>> = { good: 0, advice: 1, warning: 2, error: 3 };

/** What got better and what got worse from an audit to a later one, screen by screen and check by check. */
export function compareAudits(before: Audit, after: Audit): AuditComparison {
  const earlier = new Map(before.screens.map((screen) => [nameOf(screen), screen]));
  const later = new Set(after.screens.map(nameOf));
  const changes = after.screens.flatMap((screen) => changesOf(earlier.get(nameOf(screen)), screen));
  const by = ({ before: a, after: b }: AuditChange) => (RANK[b] ?? Number.NaN) - (RANK[a] ?? Number.NaN);
  return {
    from: before.auditedAt,
    to: after.auditedAt,
    better: changes.filter((change) => by(change) < 0),
    worse: changes.filter((change) => by(change) > 0),
    otherwise: changes.filter((change) => Number.isNaN(by(change))),
    newScreens: after.screens.map(nameOf).filter((name) => !earlier.has(name)),
    goneScreens: before.screens.map(nameOf).filter((name) => !later.has(name)),
  };
}

function nameOf({ siteId, screenId }: AuditedScreen): string {
  return `${siteId}/${screenId}`;
}

function changesOf(before: AuditedScreen | undefined, after: AuditedScreen): readonly AuditChange[] {
  if (before === undefined) return [];
  return after.checks.flatMap(({ check, state, words }) => {
    const was = before.checks.find((item) => item.check === check)?.state ?? "unknown";
    const { siteId, screenId } = after;
    return was === state ? [] : [{ siteId, screenId, check, before: was, after: state, words }];
  });
}
