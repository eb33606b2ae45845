import { canonicalHash } from "../../base/canonical/index.ts";
import { printedImprint } from "../../logbook/imprint/index.ts";
import { equalizerCurves, headroomChange } from "../../migrate/plan/index.ts";
import type { Configuration, UnitProfile } from "../../model/index.ts";
import {
  entrySheet,
  migrationPlanReport,
  proofReport,
  type ReportDocument,
  repatchSheet,
} from "../../report/index.ts";
import type { ScreenMigration } from "./migrate-screen.ts";

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

/** The papers of a migration by their names: report, re-patch sheet, entry sheet, proof. */
export async function migrationPapers(
  screen: MigratedScreen,
  { plan, proof }: ScreenMigration,
): Promise<Readonly<Record<"plan-report" | "re-patch-sheet" | "entry-sheet" | "proof", ReportDocument>>> {
  const { old, to } = screen;
  const names = namesOnPaper(screen);
  const { siteId, screenId } = plan.configuration.screen;
  const settingsSha256 = canonicalHash(plan.configuration);
  const imprint = await printedImprint({ siteId, screenId, settingsSha256 });
  return {
    "plan-report": migrationPlanReport(plan, {
      names,
      curves: equalizerCurves(plan, old, screen),
      headroom: headroomChange(plan, old, screen),
    }),
    "re-patch-sheet": repatchSheet(plan, { names, imprint }),
    "entry-sheet": entrySheet(plan.configuration, { profile: to, imprint }),
    proof: proofReport(proof),
  };
}
