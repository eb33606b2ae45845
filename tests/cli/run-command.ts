import { Readable } from "node:stream";
import type { Context } from "../../cli/context.ts";
import { run } from "../../cli/program.ts";

/** What a command said and how it ended. */
export interface CommandResult {
  readonly out: string;
  readonly err: string;
  readonly code: number;
}

/** Runs the command line in this process, in a folder, at a fixed time. */
export async function runCommand(
  args: readonly string[],
  {
    cwd,
    now = new Date("2026-11-02T22:15:00Z"),
    columns = 80,
    typed,
  }: {
    cwd: string;
    now?: Date;
    columns?: number;
    /** Lines that a person types at a terminal; without them there is no terminal. */
    typed?: readonly string[];
  },
): Promise<CommandResult> {
  let out = "";
  let err = "";
  let code = 0;
  const line = (text: string) => (text.endsWith("\n") ? text : `${text}\n`);
  const context: Context = {
    out: (text) => {
      out += line(text);
    },
    err: (text) => {
      err += line(text);
    },
    redraw: () => {},
    input: Readable.from((typed ?? []).map((text) => `${text}\n`)),
    now: () => now,
    env: {},
    cwd,
    columns,
    color: false,
    live: false,
    interactive: typed !== undefined,
    exit: (value) => {
      code = Math.max(code, value);
    },
  };
  await run(args, context);
  return { out, err, code };
}
