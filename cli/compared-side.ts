import { BoothkeepError } from "../src/base/errors/index.ts";
import type { CompareOptions } from "../src/diff/compare/index.ts";
import type { Configuration, UnitProfile } from "../src/model/index.ts";
import type { Context } from "./context.ts";
import { findProfile, type ProfileSearch } from "./profiles.ts";

/** What a comparison should know of one document: its hash, and its unit where the profile is at hand. */
export async function comparedSide(
  configuration: Configuration,
  search: ProfileSearch,
  context: Context,
): Promise<NonNullable<CompareOptions["before"]>> {
  const { canonicalHash } = await import("../src/base/canonical/index.ts");
  const sha256 = canonicalHash(configuration);
  const profile = await profileAtHand(configuration.unit.profileId, search, context);
  if (profile === undefined) return { sha256 };
  const { unitAcoustics } = await import("../src/profile/index.ts");
  return { sha256, unit: unitAcoustics(profile, configuration.unit.sampleRateHz) };
}

/** The unit's profile; none where it is not at hand and nobody named a folder for it. */
export async function profileAtHand(
  id: string,
  search: ProfileSearch,
  context: Context,
): Promise<UnitProfile | undefined> {
  try {
    return await findProfile(id, search, context);
  } catch (error) {
    const unknown = error instanceof BoothkeepError && error.code === "profile.unknown";
    if (unknown && search.folder === undefined) return undefined;
    throw error;
  }
}
