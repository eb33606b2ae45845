import type { Configuration, StandardDecisions, UnitProfile } from "../../model/index.ts";
import { applyStandard } from "./apply.ts";
import type { CompiledStandard } from "./compile.ts";

/**
 * A screen as it would be if it followed a standard in everything that the house decides, as far as its unit can; what a
 * standard leaves to the screen, and what rooms and units decide, stays as it is. To hold a screen against, never to load:
 * nobody was asked.
 *
 * @param profile the screen's unit; absent: values of the standard stand as they are, off the unit's steps
 */
export function followingStandard(
  configuration: Configuration,
  standard: CompiledStandard,
  profile?: UnitProfile,
): Configuration {
  const open = applyStandard(configuration, { standard, profile }).steps.filter(
    ({ outcome }) => outcome === "asks",
  );
  const decisions: StandardDecisions = {
    kind: "boothkeep.standard-decisions",
    schemaVersion: "1.0.0",
    standardId: standard.standard.id,
    toVersion: standard.standard.version,
    answers: open.map(({ place, nearest }) => ({
      place,
      choose: nearest === undefined ? "standard" : "nearest",
    })),
  };
  return applyStandard(configuration, { standard, profile, decisions }).configuration;
}
