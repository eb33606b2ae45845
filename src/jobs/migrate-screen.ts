import type { Finding } from "../findings/index.ts";
import { decidedLosses, type Plan, type PlanOptions, planMigration, rulingOut } from "../migrate/index.ts";
import type { Configuration, Proof, UnitProfile } from "../model/index.ts";
import { unitAcoustics } from "../profile/index.ts";
import { prove } from "../proof/index.ts";
import { validateConfiguration } from "../rules/index.ts";

/**
 * How far a migration is: `ruled-out` when an answer says that the unit is not to be used here; `decisions-missing` while
 * the plan asks; `differs` when all is decided, but the proof finds a difference outside its tolerances or the check an
 * error; else `ready`.
 */
export type MigrationState = "ready" | "decisions-missing" | "ruled-out" | "differs";

/** A plan with what proof and check say of it. */
export interface ScreenMigration {
  readonly state: MigrationState;
  readonly plan: Plan;
  /** The old configuration on the old unit against the new one on the new unit, path by path. */
  readonly proof: Proof;
  /** Errors that the rule book finds in the new configuration on the new unit. */
  readonly errors: readonly Finding[];
}

/**
 * Migrates one screen onto another unit: plans, proves what it will sound like, and checks the result for the new unit.
 * Only a migration that is `ready` may be written, and even then amplifiers stay off or muted until every way was checked.
 *
 * @throws BoothkeepError as planMigration does, of decisions that fit no question
 * @example
 * const { state, plan, proof } = migrateScreen(old, { from: oldUnit, to: newUnit, decisions });
 * if (state === "ready") write(plan.configuration);
 */
export function migrateScreen(old: Configuration, options: PlanOptions): ScreenMigration {
  const { from, to } = options;
  const plan = planMigration(old, options);
  const proof = prove(old, plan.configuration, {
    beforeUnit: unitFor(from, old),
    afterUnit: unitFor(to, plan.configuration),
    givenUp: decidedLosses(plan, old),
  });
  const errors = validateConfiguration(plan.configuration, { profile: to }).filter(
    ({ severity }) => severity === "error",
  );
  return { state: stateOf(plan, proof, errors), plan, proof, errors };
}

function stateOf(plan: Plan, proof: Proof, errors: readonly Finding[]): MigrationState {
  if (rulingOut(plan.questions).length > 0) return "ruled-out";
  if (!plan.decided) return "decisions-missing";
  return proof.verdict === "differs" || errors.length > 0 ? "differs" : "ready";
}

function unitFor(profile: UnitProfile, { unit }: Configuration) {
  return { ...unitAcoustics(profile, unit.sampleRateHz), fader: profile.fader };
}
