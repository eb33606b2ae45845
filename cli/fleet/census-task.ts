import { Census, type CensusCounts, isInClass } from "../../src/fleet/standard/index.ts";
import type { StandardClass } from "../../src/model/index.ts";
import type { TaskNote } from "../workers/tasks.ts";
import type { Chunk } from "./chunks.ts";
import { loadedScreens } from "./loaded-screens.ts";

export interface CensusSetup {
  /** Which screens are counted. */
  readonly screens: StandardClass;
}

/** Counts what screens have: counts that can be added to those of others. */
export async function censusTask({ screens }: CensusSetup, note: (note: TaskNote) => void) {
  return async (chunk: Chunk): Promise<CensusCounts> => {
    const census = new Census();
    for await (const loaded of loadedScreens(chunk, note)) {
      if (loaded.kind === "unread") {
        note({ kind: "warning", words: `boothkeep: ${loaded.name} is left out: ${loaded.words}` });
      } else if (isInClass(screens, loaded.screen.configuration)) {
        census.add(loaded.screen.configuration, loaded.screen.name);
      }
    }
    return census.counts();
  };
}
