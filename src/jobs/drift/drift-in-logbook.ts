import type { CompiledStandard } from "../../fleet/standard/index.ts";
import type { Logbook } from "../../logbook/entries/index.ts";
import type { UnitProfile } from "../../model/index.ts";
import { type LoadOptions, loadScreens } from "../screens/load-screens.ts";
import { DriftJob, type DriftPart } from "./drift-job.ts";

/** The standard, and where unit profiles come from. */
export interface DriftOptions extends LoadOptions {
  readonly standard: CompiledStandard;
  /** Finds a unit profile by its id; undefined: numbers that the unit had to round count as deviations. */
  readonly profileOf: (id: string) => UnitProfile | undefined | Promise<UnitProfile | undefined>;
}

/** Compares screens of a logbook with a standard: what is found, ready to be added to what was found elsewhere. */
export async function driftInLogbook(
  logbook: Logbook,
  { standard, profileOf, ...load }: DriftOptions,
): Promise<DriftPart> {
  const job = new DriftJob(standard);
  for (const loaded of loadScreens(logbook, load)) {
    if (loaded.kind === "unread") {
      const { name, words, isDamaged } = loaded;
      job.leaveOut({ name, words, isDamaged });
    } else {
      const { screen } = loaded;
      job.add({ ...screen, profile: await profileOf(screen.configuration.unit.profileId) });
    }
  }
  return job.part();
}
