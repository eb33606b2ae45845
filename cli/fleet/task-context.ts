import { Readable } from "node:stream";
import type { Context } from "../context.ts";
import type { TaskNote } from "../workers/tasks.ts";

/** What of the outside world a task may use, as plain data. */
export interface TaskWorld {
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
}

export function taskWorld({ cwd, env }: Context): TaskWorld {
  return { cwd, env: { BOOTHKEEP_PROFILES: env.BOOTHKEEP_PROFILES } };
}

/** A context in which everything that is said becomes a note. */
export function taskContext({ cwd, env }: TaskWorld, note: (note: TaskNote) => void): Context {
  return {
    cwd,
    env,
    out: () => {},
    err: (words) => note({ kind: "warning", words }),
    redraw: () => {},
    input: Readable.from([]),
    now: () => new Date(),
    columns: 80,
    color: false,
    live: false,
    interactive: false,
    exit: () => {},
  };
}
