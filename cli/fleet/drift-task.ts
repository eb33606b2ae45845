import { compileStandard } from "../../src/fleet/standard/index.ts";
import { DriftJob, type DriftPart } from "../../src/jobs/index.ts";
import type { Standard } from "../../src/model/index.ts";
import { KnownProfiles } from "../known-profiles.ts";
import type { TaskNote } from "../workers/tasks.ts";
import type { Chunk } from "./chunks.ts";
import { loadedScreens } from "./loaded-screens.ts";
import { type TaskWorld, taskContext } from "./task-context.ts";

export interface DriftSetup {
  readonly world: TaskWorld;
  readonly standard: Standard;
  /** What --profiles said. */
  readonly profiles: string | undefined;
}

/** Holds screens against a standard: what is found, ready to be added to what others found. */
export async function driftTask(
  { world, standard, profiles: folder }: DriftSetup,
  note: (note: TaskNote) => void,
) {
  const compiled = compileStandard(standard);
  const profiles = new KnownProfiles(folder, taskContext(world, note));
  return async (chunk: Chunk): Promise<DriftPart> => {
    const job = new DriftJob(compiled);
    for await (const loaded of loadedScreens(chunk, note)) {
      if (loaded.kind === "unread") {
        const { name, words, isDamaged } = loaded;
        job.leaveOut({ name, words, isDamaged });
      } else {
        const { screen } = loaded;
        const profile = await profiles.of(screen.configuration.unit.profileId, screen.near);
        job.add({ ...screen, profile });
      }
    }
    return job.part();
  };
}
