import { fitsStars } from "../../base/text/index.ts";
import type { Configuration, Drive, Standard, StandardClass } from "../../model/index.ts";

/** Whether a standard is for a screen. */
export function isForScreen({ screens }: Standard, configuration: Configuration): boolean {
  return isInClass(screens, configuration);
}

/** Whether a screen is of a class; what the class does not say does not restrict. */
export function isInClass(
  { formats, drives, profileIds, sites }: StandardClass,
  configuration: Configuration,
): boolean {
  const { screen, unit } = configuration;
  return (
    (formats === undefined || formats.includes(screen.format)) &&
    (profileIds === undefined || profileIds.includes(unit.profileId)) &&
    (sites === undefined || sites.some((pattern) => fitsStars(pattern, screen.siteId))) &&
    (drives === undefined || screenDrives(configuration).every((drive) => drives.includes(drive)))
  );
}

/** How the loudspeakers behind the screen are driven, each way once, sorted. */
export function screenDrives({ loudspeakers }: Configuration): readonly Drive[] {
  const behind = loudspeakers.filter(({ placement }) => placement.startsWith("screen-"));
  return [...new Set(behind.map(({ drive }) => drive))].sort();
}
