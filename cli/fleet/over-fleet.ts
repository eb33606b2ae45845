import { resolve } from "node:path";
import { checkInputs } from "../check-inputs.ts";
import type { Context } from "../context.ts";
import { documentScreen, type PlacedScreen } from "../fleet-screens.ts";
import { isLogbook } from "../is-logbook.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { type ResultOf, type SetupOf, spread } from "../workers/pool.ts";
import { chunked, taskNotes, worthWorkers } from "./chunks.ts";

export interface OverFleet<N extends "drift" | "census"> {
  readonly task: N;
  readonly setup: SetupOf<N>;
  /** What is being done, for the bar: "Held". */
  readonly label: string;
  /** What a chunk of a logbook's screens came to. */
  readonly onPart: (part: ResultOf<N>) => void;
  /** A screen that stands in a document of its own. */
  readonly onScreen: (screen: PlacedScreen) => Promise<void>;
}

/**
 * Goes over the screens behind what a user names, in order: those of logbooks on all cores, those of documents, packs and
 * folders here. None is kept, so that a fleet is never in memory as a whole.
 *
 * @throws BoothkeepError input.*, pack.*, document.*, logbook.not-found
 */
export async function overFleet<N extends "drift" | "census">(
  files: readonly string[],
  { task, setup, label, onPart, onScreen }: OverFleet<N>,
  context: Context,
): Promise<void> {
  for (const named of files) {
    const path = resolve(context.cwd, named);
    if (isLogbook(path)) {
      const { logbookScreens } = await import("../../src/public/logbook.ts");
      const folders = [...logbookScreens(await openLogbookFolder(named, context))].map(
        ({ folder }) => folder,
      );
      const notes = taskNotes(context, label, folders.length);
      const inputs = chunked(folders).map((some) => ({ path, named, folders: some }));
      await spread<"drift" | "census">({
        task,
        setup: setup as SetupOf<"drift" | "census">,
        inputs,
        worthWorkers: worthWorkers(folders.length),
        onResult: onPart as (part: ResultOf<"drift" | "census">) => void,
        onNote: notes.onNote,
      });
      notes.end();
      continue;
    }
    for await (const input of checkInputs(named, context)) {
      const screen = await documentScreen(input);
      if (screen !== undefined) await onScreen(screen);
    }
  }
}
