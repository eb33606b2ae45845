import { canonicalHash } from "../../base/canonical/index.ts";
import { printedImprint } from "../../logbook/imprint/index.ts";
import { equalizerCurves, headroomChange } from "../../migrate/plan/index.ts";
import type { Configuration, UnitProfile } from "../../model/index.ts";
import {
  entrySheet,
  imprintFooter,
  migrationPlanReport,
  proofReport,
  type ReportDocument,
  repatchSheet,
} from "../../report/index.ts";
import type { MigrationState, ScreenMigration } from "./migrate-screen.ts";

/** A screen on its way from one unit to another. */
export interface MigratedScreen {
  readonly old: Configuration;
  readonly from: UnitProfile;
  readonly to: UnitProfile;
}

/** What the screen and the units are called on paper. */
export function namesOnPaper({ old, from, to }: MigratedScreen) {
  return {
    screen: `${old.screen.siteName}, ${old.screen.screenName}`,
    from: from.label,
    to: to.label,
  };
}

const PAPERS = ["plan-report", "re-patch-sheet", "entry-sheet", "proof"] as const;

/** The names of a migration's final papers. */
export const FINAL_PAPERS: readonly string[] = PAPERS;

/** Digits of the set's hash in the names of drafts: drafts of one set are found together, others never meet. */
const DRAFT_DIGITS = 8;

/** What the names of a migration's papers begin with: nothing where they are final. */
export function paperPrefix(migration: Pick<ScreenMigration, "plan" | "proof" | "state">): string {
  return migration.state === "ready" ? "" : `DRAFT-${setHash(migration).slice(0, DRAFT_DIGITS)}-`;
}

/**
 * The one hash that binds the new configuration, the sheets and the proof: over the plan, which contains the
 * configuration and the cables, and the proof. Equal input gives an equal hash.
 */
export function setHash({ plan, proof }: Pick<ScreenMigration, "plan" | "proof">): string {
  return canonicalHash([plan, proof]);
}

/**
 * The papers of a migration by their names: report, re-patch sheet, entry sheet, proof. Only a migration that is `ready` has
 * final papers; all others are drafts, say so on every page and in their names, and carry no code to match them with a
 * logbook. Every paper bears the hash of its settings and that of the set at its foot and at its end.
 */
export async function migrationPapers(
  screen: MigratedScreen,
  migration: ScreenMigration,
): Promise<Readonly<Record<string, ReportDocument>>> {
  const { plan, proof, state } = migration;
  const { old, to } = screen;
  const names = namesOnPaper(screen);
  const { siteId, screenId } = plan.configuration.screen;
  const settingsSha256 = canonicalHash(plan.configuration);
  const imprint = await printedImprint({ siteId, screenId, settingsSha256 });
  const shown = state === "ready" ? { imprint } : {};
  const documents: Readonly<Record<(typeof PAPERS)[number], ReportDocument>> = {
    "plan-report": migrationPlanReport(plan, {
      names,
      curves: equalizerCurves(plan, old, screen),
      headroom: headroomChange(plan, old, screen),
    }),
    "re-patch-sheet": repatchSheet(plan, { names, ...shown }),
    "entry-sheet": entrySheet(plan.configuration, { profile: to, ...shown }),
    proof: proofReport(proof),
  };
  const prefix = paperPrefix(migration);
  const { footer = "" } = imprintFooter(imprint, { setSha256: setHash(migration) });
  const draft = draftWords(migration);
  const hashes = {
    kind: "facts" as const,
    pairs: [
      ["Settings", grouped(settingsSha256)],
      ["Set", grouped(setHash(migration))],
    ] as const,
  };
  return Object.fromEntries(
    PAPERS.map((name) => [
      `${prefix}${name}`,
      {
        ...documents[name],
        blocks: [...documents[name].blocks, hashes],
        footer,
        ...(draft !== undefined && { draft }),
      },
    ]),
  );
}

/** A hash in groups that a person can compare. */
function grouped(sha256: string): string {
  return sha256.replace(/.{16}(?=.)/g, "$& ");
}

/** Why the papers of a migration are drafts; undefined: they are not. */
function draftWords({ state, plan }: ScreenMigration): string | undefined {
  const open = plan.questions.filter(({ answer }) => answer === undefined).length;
  const words: Readonly<Record<MigrationState, string | undefined>> = {
    "decisions-missing": open === 1 ? "1 question is open." : `${open} questions are open.`,
    "ruled-out": "an answer rules this unit out.",
    differs: "the proof or the check finds something.",
    ready: undefined,
  };
  return words[state];
}
