import { EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { Context } from "../context.ts";
import { progress } from "../progress.ts";
import type { TaskNote } from "../workers/tasks.ts";

/** Fewer screens than this are done sooner than another thread is started. */
const WORTH_WORKER = 40;
/** Screens of a chunk: enough that handing over costs little, few enough that all threads end at the same time. */
const MOST_IN_CHUNK = 64;
const CHUNKS_FOR_EACH = 16;

/** So many threads are worth starting for so many screens. */
export function worthWorkers(screens: number): number {
  return Math.floor(screens / WORTH_WORKER);
}

/** Cuts a list into chunks, in order. */
export function chunked<Item>(items: readonly Item[]): readonly (readonly Item[])[] {
  const size = Math.max(1, Math.min(MOST_IN_CHUNK, Math.ceil(items.length / CHUNKS_FOR_EACH)));
  return Array.from({ length: Math.ceil(items.length / size) }, (_, index) =>
    items.slice(index * size, (index + 1) * size),
  );
}

/** Shows notes of tasks: a bar for what is done, each warning once. Whatever is damaged decides the exit code. */
export function taskNotes(context: Context, label: string, total: number) {
  const bar = progress(context, label, total);
  const told = new Set<string>();
  let done = 0;
  const onNote = (note: TaskNote): void => {
    if (note.kind === "done") {
      done += 1;
      bar.at(done, note.name);
      return;
    }
    if (note.kind === "damaged") context.exit(EXIT_CODE.damaged);
    if (!told.has(note.words)) {
      told.add(note.words);
      context.err(note.words);
    }
  };
  return { onNote, end: bar.end };
}
