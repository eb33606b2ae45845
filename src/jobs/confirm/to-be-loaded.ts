import type { Configuration, Proposal, Standard } from "../../model/index.ts";

/** What was to be loaded into a unit, and where it comes from. */
export interface ToBeLoaded {
  readonly configuration: Configuration;
  /** The entry of the logbook that it was taken from. */
  readonly entryId?: string;
  /** The standard that it brings the screen to, and the proposal to do so. */
  readonly applied?: { readonly standard: Standard; readonly proposal: Proposal };
}

/**
 * An entry, as it was to be loaded. It was recorded on the unit of that day; loaded into another one it carries that one's
 * serial number and firmware.
 */
export function entryToBeLoaded(
  entry: { readonly id: string; readonly configuration: Configuration },
  readBack: Configuration,
): ToBeLoaded {
  const { serial, firmware } = readBack.unit;
  const { configuration, id } = entry;
  return {
    configuration: { ...configuration, unit: { ...configuration.unit, serial, firmware } },
    entryId: id,
  };
}
