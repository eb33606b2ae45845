import { compareConfigurations } from "../../src/diff/compare/index.ts";
import { tablesOf } from "../../src/exchange/tables/index.ts";
import { unfoundedAccounts } from "../../src/migrate/plan/check/unfounded-accounts.ts";
import { type Plan, planMigration } from "../../src/migrate/plan/index.ts";
import type { Configuration } from "../../src/model/index.ts";
import { unitAcoustics } from "../../src/profile/index.ts";
import { prove } from "../../src/proof/index.ts";
import { entrySheet } from "../../src/report/index.ts";
import type { Subject } from "./complete.ts";

/** Where a changed value of a configuration has to show. */
export type Witness = "diff" | "proof" | "accounts" | "sheet" | "tables";

/** Says whether a changed copy of a configuration shows. */
export interface Observer {
  readonly sees: Readonly<Record<Witness, (changed: Configuration) => boolean>>;
  /** The configuration carried onto a unit of its own model: whatever the plan knows of stays as it is. */
  readonly plan: Plan;
}

export function observerOf({ configuration, profile }: Subject): Observer {
  const plan = planMigration(configuration, { from: profile, to: profile });
  const unitFor = ({ unit }: Configuration) => ({
    ...unitAcoustics(profile, unit.sampleRateHz),
    fader: profile.fader,
  });
  const sheetOf = (of: Configuration) => JSON.stringify(entrySheet(of, { profile }).blocks);
  const tablesText = (of: Configuration) => JSON.stringify(tablesOf(of));
  const sheet = sheetOf(configuration);
  const tables = tablesText(configuration);
  const beforeUnit = unitFor(configuration);
  return {
    plan,
    sees: {
      diff: (changed) => compareConfigurations(configuration, changed).findings.length > 0,
      proof: (changed) =>
        prove(configuration, changed, { beforeUnit, afterUnit: unitFor(changed) }).verdict !== "equal",
      accounts: (changed) => unfoundedAccounts({ ...plan, configuration: changed }, configuration).length > 0,
      sheet: (changed) => sheetOf(changed) !== sheet,
      tables: (changed) => tablesText(changed) !== tables,
    },
  };
}

/** Where to go when a witness does not see a value. */
export const WHERE_TO_GO: Readonly<Record<Witness, string>> = {
  diff: "src/diff/compare/explain (an explainer takes the change)",
  proof:
    "src/proof (what shapes sound enters the responses of src/acoustics; a setting is compared in src/proof/settings.ts)",
  accounts: "src/migrate/plan/steps (a step claims the value)",
  sheet: "src/report/compose/entry-sheet-*.ts (a line with a box)",
  tables: "src/exchange/tables/layouts (a column)",
};
