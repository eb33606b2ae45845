import { Census, type CensusCounts, isInClass } from "../fleet/standard/index.ts";
import type { Logbook } from "../logbook/entries/index.ts";
import type { StandardClass } from "../model/index.ts";
import { type LoadOptions, loadScreens, type UnreadScreen } from "./screens/load-screens.ts";

/** Which screens of a logbook are counted. */
export interface CensusOptions extends LoadOptions {
  /** Which screens are counted. */
  readonly screens: StandardClass;
  /** Called with each screen that could not be read, and so is not counted. */
  readonly onLeftOut?: (screen: UnreadScreen) => void;
}

/** Counts what screens of a logbook have: counts that can be added to those of others. */
export function censusOfLogbook(
  logbook: Logbook,
  { screens, onLeftOut, ...load }: CensusOptions,
): CensusCounts {
  const census = new Census();
  for (const loaded of loadScreens(logbook, load)) {
    if (loaded.kind === "unread") onLeftOut?.(loaded);
    else if (isInClass(screens, loaded.screen.configuration)) {
      census.add(loaded.screen.configuration, loaded.screen.name);
    }
  }
  return census.counts();
}
