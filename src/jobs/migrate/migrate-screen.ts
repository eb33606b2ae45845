import type { Finding } from "../../base/findings/index.ts";
import {
  asWired,
  decidedLosses,
  type Plan,
  type PlanOptions,
  planMigration,
  rulingOut,
  unfoundedClaims,
} from "../../migrate/plan/index.ts";
import type { Configuration, Output, Proof, UnitProfile } from "../../model/index.ts";
import { unitAcoustics } from "../../profile/index.ts";
import { prove } from "../../proof/index.ts";
import { validateConfiguration } from "../../rules/index.ts";

/**
 * How far a migration is: `ruled-out` when an answer says that the unit is not to be used here; `decisions-missing` while
 * the plan asks; `differs` when all is decided, but the proof finds a difference outside its tolerances, the check an error
 * that does not follow from a decision, or something that the plan says of itself does not hold; else `ready`.
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
  /** How many of them it finds in the old configuration on the old unit too. */
  readonly errorsBefore: number;
  /** How many of them the proof accounts for: what was decided to be left out, what another stage or a cable makes up for. */
  readonly errorsDecided: number;
  /** What the plan says of itself and the documents do not bear out, in words. */
  readonly unfounded: readonly string[];
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
  const proof = prove(old, asWired(plan), {
    beforeUnit: unitFor(from, old),
    afterUnit: unitFor(to, plan.configuration),
    givenUp: decidedLosses(plan, old),
  });
  const errors = errorsOf(plan.configuration, to);
  const unfounded = plan.decided ? unfoundedClaims(plan, old, { from, to, proof }) : [];
  const decided =
    unfounded.length === 0 ? errors.filter((error) => followsFromDecision(error, plan, proof)).length : 0;
  return {
    state: stateOf(plan, proof, errors.length - decided + unfounded.length),
    plan,
    proof,
    errors,
    errorsBefore: errors.length === 0 ? 0 : alike(errors, errorsOf(old, from)),
    errorsDecided: decided,
    unfounded,
  };
}

/**
 * The rules of formats ask whether every channel is played. Where the proof finds every path that is missing given up by
 * decision, what they find wrong follows from that. Others look at one stage of the level, or do not know which cable is
 * turned; the proof does.
 */
function followsFromDecision({ code }: Finding, plan: Plan, { verdict, counts }: Proof): boolean {
  if (verdict === "differs") return false;
  if (code === "crossover/ways-fed-apart") return true;
  if (code === "crossover/wrong-polarity") return asWired(plan).outputs.some(isTurned(plan));
  return code.startsWith("format/") && counts.changedByDecision + counts.leftOut > 0;
}

function isTurned({ configuration }: Plan): (wired: Output, index: number) => boolean {
  return ({ polarity }, index) => polarity !== configuration.outputs[index]?.polarity;
}

function errorsOf(configuration: Configuration, profile: UnitProfile): readonly Finding[] {
  return validateConfiguration(configuration, { profile }).filter(({ severity }) => severity === "error");
}

/** How many findings another configuration has too: by code, as places and numbers may have changed. */
function alike(errors: readonly Finding[], before: readonly Finding[]): number {
  const codes = before.map(({ code }) => code);
  return errors.filter(({ code }) => {
    const index = codes.indexOf(code);
    if (index >= 0) codes.splice(index, 1);
    return index >= 0;
  }).length;
}

function stateOf(plan: Plan, proof: Proof, faults: number): MigrationState {
  if (rulingOut(plan.questions).length > 0) return "ruled-out";
  if (!plan.decided) return "decisions-missing";
  return proof.verdict === "differs" || faults > 0 ? "differs" : "ready";
}

function unitFor(profile: UnitProfile, { unit }: Configuration) {
  return { ...unitAcoustics(profile, unit.sampleRateHz), fader: profile.fader };
}
