import { BoothkeepError } from "../../src/base/errors/index.ts";
import type { UnreadScreen } from "../../src/jobs/index.ts";
import { folderStore, logbookScreens, openLogbook } from "../../src/logbook/entries/index.ts";
import { type FleetScreen, logbookScreen } from "../fleet-screens.ts";
import type { TaskNote } from "../workers/tasks.ts";
import type { Chunk } from "./chunks.ts";

/** What became of a screen: its last configuration, or why there is none. */
export type LoadedScreen =
  | { readonly kind: "screen"; readonly screen: FleetScreen }
  | ({ readonly kind: "unread" } & UnreadScreen);

/** The screens of a chunk, read one after the other. One that cannot be read does not stop the others. */
export async function* loadedScreens(
  { path, named, folders }: Chunk,
  note: (note: TaskNote) => void,
): AsyncGenerator<LoadedScreen> {
  const logbook = openLogbook(folderStore(path));
  for (const screen of logbookScreens(logbook, { folders })) {
    try {
      const loaded = await logbookScreen(logbook, screen, named);
      if (loaded !== undefined) yield { kind: "screen", screen: loaded.screen };
      else
        yield { kind: "unread", name: screen.folder, words: "It has no entry that holds.", isDamaged: false };
    } catch (error) {
      if (!(error instanceof BoothkeepError)) throw error;
      yield { kind: "unread", name: screen.folder, words: error.message, isDamaged: true };
    }
    note({ kind: "done", name: screen.folder });
  }
}
