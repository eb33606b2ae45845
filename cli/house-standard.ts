import { BoothkeepError } from "../src/base/errors/index.ts";
import type { Configuration, Standard } from "../src/model/index.ts";
import { profileAtHand } from "./compared-side.ts";
import type { Context } from "./context.ts";
import { readAnyFile } from "./documents.ts";

export const STANDARD_OPTION = [
  "--standard <file>",
  "the house standard, or a configuration that shows it",
] as const;

/**
 * What a screen is held against: a configuration as it is; of a standard, the screen as it would be if it followed it.
 * @throws BoothkeepError usage.wrong where the standard is not for this screen, and whatever reading throws
 */
export async function houseStandard(
  file: string,
  screen: Configuration,
  profiles: string | undefined,
  context: Context,
): Promise<Configuration> {
  const { kind, document } = await readAnyFile(
    file,
    ["boothkeep.standard", "boothkeep.configuration"],
    context,
  );
  if (kind === "boothkeep.configuration") return document as Configuration;
  const standard = document as Standard;
  const { followingStandard, isForScreen } = await import("../src/fleet/standard/index.ts");
  const { compiledAt } = await import("./read-standard.ts");
  const { siteId, screenId } = screen.screen;
  if (!isForScreen(standard, screen)) {
    throw new BoothkeepError(
      "usage.wrong",
      `The standard ${standard.id} ${standard.version} is not for ${siteId}, ${screenId}.`,
      { place: { file, pointer: "/screens" }, next: "Name the standard of such screens, or leave it out." },
    );
  }
  const search = { folder: profiles, near: file };
  const profile = await profileAtHand(screen.unit.profileId, search, context);
  return followingStandard(screen, compiledAt(file, standard), profile);
}
