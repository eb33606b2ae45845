import type { ScreenMigration } from "../../src/jobs/index.ts";
import type { EqFits } from "../../src/migrate/plan/index.ts";
import type { Configuration, Decisions, UnitProfile } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { fileImprint } from "../paper-source.ts";
import { findProfile, profileFrom } from "../profiles.ts";

/** Options of the command. */
export interface MigrateOptions {
  readonly to: string;
  readonly from?: string | undefined;
  readonly decisions?: string;
  readonly classes?: string;
  readonly out?: string;
  readonly plan?: string;
  readonly sheets?: string;
  readonly into?: string;
  readonly profiles?: string | undefined;
  readonly recommended?: boolean;
  readonly json?: boolean;
}

/** What a migration needs. */
export interface MigrationInput {
  readonly old: Configuration;
  readonly from: UnitProfile;
  readonly to: UnitProfile;
  readonly decisions: Decisions | undefined;
  readonly eqFits: EqFits;
}

/** The profile of the old unit: what --from says, the new one where it is the same, else by its id. */
export async function oldProfile(
  id: string,
  { from, profiles }: Pick<MigrateOptions, "from" | "profiles">,
  { file, to, context }: { readonly file: string; readonly to: UnitProfile; readonly context: Context },
): Promise<UnitProfile> {
  const search = { folder: profiles, near: file };
  if (from !== undefined) return profileFrom(from, search, context);
  return id === to.id ? to : findProfile(id, search, context);
}

/** What the screen and the units are called on paper. */
export function namesOf({ old, from, to }: MigrationInput) {
  return {
    screen: `${old.screen.siteName}, ${old.screen.screenName}`,
    from: from.label,
    to: to.label,
  };
}

/**
 * The papers of a migration as files in a folder: report, re-patch sheet, entry sheet, proof, as pages and as text.
 *
 * @param write writes a file; see writeNew and writeOnce
 */
export async function writePapers(
  input: MigrationInput,
  { plan, proof }: ScreenMigration,
  { folder, write }: { readonly folder: string; readonly write: (file: string, text: string) => void },
): Promise<readonly string[]> {
  const report = await import("../../src/report/index.ts");
  const { equalizerCurves, headroomChange } = await import("../../src/migrate/plan/index.ts");
  const { canonicalHash } = await import("../../src/base/canonical/index.ts");
  const names = namesOf(input);
  const imprint = await fileImprint(plan.configuration, canonicalHash(plan.configuration));
  const papers = {
    "plan-report": report.migrationPlanReport(plan, {
      names,
      curves: equalizerCurves(plan, input.old, input),
      headroom: headroomChange(plan, input.old, input),
    }),
    "re-patch-sheet": report.repatchSheet(plan, { names, imprint }),
    "entry-sheet": report.entrySheet(plan.configuration, { profile: input.to, imprint }),
    proof: report.proofReport(proof),
  };
  return Object.entries(papers).flatMap(([name, document]) => {
    const files = {
      [`${name}.html`]: report.renderHtml(document),
      [`${name}.txt`]: report.renderText(document),
    };
    return Object.entries(files).map(([file, content]) => {
      const path = `${folder}/${file}`;
      write(path, content);
      return path;
    });
  });
}

/** A document as a file: indented JSON with a line end. */
export function jsonText(document: unknown): string {
  return `${JSON.stringify(document, null, 2)}\n`;
}
