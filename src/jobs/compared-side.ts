import { canonicalHash } from "../base/canonical/index.ts";
import type { ComparedSide } from "../diff/compare/index.ts";
import type { Configuration, UnitProfile } from "../model/index.ts";
import { unitAcoustics } from "../profile/index.ts";

/** What a comparison knows of one document: its hash, and what its unit computes where the profile is at hand. */
export function comparedSide(configuration: Configuration, profile: UnitProfile | undefined): ComparedSide {
  const sha256 = canonicalHash(configuration);
  if (profile === undefined) return { sha256 };
  return { sha256, unit: unitAcoustics(profile, configuration.unit.sampleRateHz) };
}
