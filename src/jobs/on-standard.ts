import { BoothkeepError } from "../base/errors/index.ts";
import { compileStandard, followingStandard, isForScreen } from "../fleet/standard/index.ts";
import type { Configuration, Standard, UnitProfile } from "../model/index.ts";

/**
 * A screen as it would be if it followed a standard, to compare it with. Never to be loaded: nobody was asked.
 *
 * @param profile absent: values of the standard stay as they are, off the unit's steps
 * @throws BoothkeepError usage.wrong where the standard is not for this screen; standard.* where it contradicts itself
 */
export function screenOnStandard(
  screen: Configuration,
  standard: Standard,
  profile?: UnitProfile,
): Configuration {
  if (!isForScreen(standard, screen)) {
    const { siteId, screenId } = screen.screen;
    throw new BoothkeepError(
      "usage.wrong",
      `The standard ${standard.id} ${standard.version} is not for ${siteId}, ${screenId}.`,
      { place: { pointer: "/screens" }, next: "Name the standard of such screens, or leave it out." },
    );
  }
  return followingStandard(screen, compileStandard(standard), profile);
}
