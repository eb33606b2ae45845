import { decidedLosses, planMigration } from "../migrate/plan/index.ts";
import type { Configuration, Decisions, Proof, UnitProfile } from "../model/index.ts";
import { unitAcoustics } from "../profile/index.ts";
import { prove } from "../proof/index.ts";

/** The units of the two configurations, and what was decided between them. */
export interface ProveDocumentsOptions {
  /** Unit of the first configuration. */
  readonly from: UnitProfile;
  /** Unit of the second. */
  readonly to: UnitProfile;
  /** Answers by which the first was planned for the unit of the second. @defaultValue none */
  readonly decisions?: Decisions | undefined;
}

/**
 * Proves any two configurations, also one that was edited by hand. What was decided comes from the plan to which the answers
 * lead, never from the second configuration.
 *
 * @throws BoothkeepError as planMigration and prove do
 */
export function proveDocuments(
  before: Configuration,
  after: Configuration,
  { from, to, decisions }: ProveDocumentsOptions,
): Proof {
  const unitOf = (profile: UnitProfile, { unit }: Configuration) => ({
    ...unitAcoustics(profile, unit.sampleRateHz),
    fader: profile.fader,
  });
  return prove(before, after, {
    beforeUnit: unitOf(from, before),
    afterUnit: unitOf(to, after),
    givenUp:
      decisions === undefined ? [] : decidedLosses(planMigration(before, { from, to, decisions }), before),
  });
}
