import type { Finding } from "../base/findings/index.ts";
import { compareConfigurations } from "../diff/compare/index.ts";
import {
  type TableFile,
  type TakenTables,
  type TakeTablesOptions,
  takeTables,
} from "../exchange/tables/index.ts";
import type { Comparison, Configuration, UnitProfile } from "../model/index.ts";
import { unitAcoustics } from "../profile/index.ts";
import { validateConfiguration } from "../rules/index.ts";

/** What tables did to a configuration and what it means, or everything that is wrong with them. */
export type AppliedTables =
  | Extract<TakenTables, { readonly kind: "refused" }>
  | (Extract<TakenTables, { readonly kind: "taken" }> & {
      readonly comparison: Comparison;
      /** What the rule book says of the new configuration and did not say of the one before, most serious first. */
      readonly newFindings: readonly Finding[];
      /** Whether the unit's profile was at hand. */
      readonly withProfile: boolean;
    });

/** How tables are taken and the result is checked. */
export interface ApplyTablesOptions extends TakeTablesOptions {
  /** Date of the check, RFC 3339 full-date; absent: rules about age are silent. */
  readonly today?: string;
}

/**
 * Takes filled-in tables into a configuration, says in an engineer's words what that changed, and what the rule book newly
 * finds. Only a configuration that was looked through may be loaded, amplifiers off or muted.
 *
 * @throws BoothkeepError as `changesBetween` does
 */
export function applyTables(
  configuration: Configuration,
  files: readonly TableFile[],
  options: ApplyTablesOptions = {},
): AppliedTables {
  const taken = takeTables(configuration, files, options);
  if (taken.kind === "refused") return taken;
  const { profile, today } = options;
  const side = { ...(profile === undefined ? {} : { unit: unitOf(configuration, profile) }) };
  return {
    ...taken,
    comparison: compareConfigurations(configuration, taken.configuration, { before: side, after: side }),
    newFindings: newFindings(configuration, taken.configuration, { profile, today }),
    withProfile: profile !== undefined,
  };
}

function unitOf({ unit }: Configuration, profile: UnitProfile) {
  return unitAcoustics(profile, unit.sampleRateHz);
}

/** A finding is new when its rule was silent about its place before. */
function newFindings(
  before: Configuration,
  after: Configuration,
  options: Parameters<typeof validateConfiguration>[1],
): readonly Finding[] {
  const key = ({ code, place }: Finding) => `${code} ${place.words}`;
  const known = new Set(validateConfiguration(before, options).map(key));
  return validateConfiguration(after, options).filter((finding) => !known.has(key(finding)));
}
