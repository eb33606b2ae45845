import type { Configuration, Drive, Standard } from "../model/index.ts";
import { fitsPattern } from "./pattern.ts";

/** Whether a standard is for a screen. */
export function isForScreen({ screens }: Standard, configuration: Configuration): boolean {
  const { formats, drives, profileIds, sites } = screens;
  const { screen, unit } = configuration;
  return (
    (formats === undefined || formats.includes(screen.format)) &&
    (profileIds === undefined || profileIds.includes(unit.profileId)) &&
    (sites === undefined || sites.some((pattern) => fitsPattern(pattern, screen.siteId))) &&
    (drives === undefined || screenDrives(configuration).every((drive) => drives.includes(drive)))
  );
}

/** How the loudspeakers behind the screen are driven, each way once, sorted. */
export function screenDrives({ loudspeakers }: Configuration): readonly Drive[] {
  const behind = loudspeakers.filter(({ placement }) => placement.startsWith("screen-"));
  return [...new Set(behind.map(({ drive }) => drive))].sort();
}
