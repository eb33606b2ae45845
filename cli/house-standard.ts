import { BoothkeepError, type Configuration } from "../src/public/boothkeep.ts";
import type { Context } from "./context.ts";
import { readDocumentFile } from "./documents.ts";
import { profileAtHand } from "./profiles.ts";

export const STANDARD_OPTION = [
  "--standard <file>",
  "the house standard, or a configuration that shows it",
] as const;

/**
 * What a screen is held against: a configuration as it is; of a standard, the screen as it would be if it followed it.
 * @throws BoothkeepError as screenOnStandard does, and whatever reading throws
 */
export async function houseStandard(
  file: string,
  screen: Configuration,
  profiles: string | undefined,
  context: Context,
): Promise<Configuration> {
  const kinds = ["boothkeep.standard", "boothkeep.configuration"] as const;
  const document = await readDocumentFile(file, kinds, context);
  if (document.kind === "boothkeep.configuration") return document;
  const { screenOnStandard } = await import("../src/public/fleet.ts");
  const profile = await profileAtHand(screen.unit.profileId, { folder: profiles, near: file }, context);
  try {
    return screenOnStandard(screen, document, profile);
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}
