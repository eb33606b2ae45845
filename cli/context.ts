import type { Readable } from "node:stream";

/** Everything of the outside world that a command may use; tests pass their own. */
export interface Context {
  /** Results. Ends each text with exactly one line end. */
  readonly out: (text: string) => void;
  /** Errors, warnings, progress. */
  readonly err: (text: string) => void;
  /** Draws over the current line of standard error; only of use where `live` is true. */
  readonly redraw: (text: string) => void;
  readonly input: Readable;
  readonly now: () => Date;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Folder that relative paths start from. */
  readonly cwd: string;
  /** Width of the terminal in columns; 80 where there is none. */
  readonly columns: number;
  /** Whether color may be used: a terminal, and NO_COLOR (no-color.org) is not set. */
  readonly color: boolean;
  /** Whether standard error is a terminal, so that a progress bar can be drawn over. */
  readonly live: boolean;
  /** Whether a person can be asked: standard input and standard error are a terminal. */
  readonly interactive: boolean;
  /** Says how the command ended; see EXIT_CODE. The highest code that was said counts. */
  readonly exit: (code: number) => void;
}

/** The context of a real process. */
export function processContext(): Context {
  const { stdout, stderr, env } = process;
  return {
    out: (text) => write(stdout, text),
    err: (text) => write(stderr, text),
    redraw: (text) => stderr.write(`\r${text}`),
    input: process.stdin,
    now: () => new Date(),
    env,
    cwd: process.cwd(),
    columns: stdout.isTTY && stdout.columns > 0 ? Math.max(40, Math.min(stdout.columns, 80)) : 80,
    color: stdout.isTTY === true && (env.NO_COLOR ?? "") === "" && env.TERM !== "dumb",
    live: stderr.isTTY === true,
    interactive: process.stdin.isTTY === true && stderr.isTTY === true,
    exit: (code) => {
      process.exitCode = Math.max(Number(process.exitCode ?? 0), code);
    },
  };
}

function write(stream: NodeJS.WriteStream, text: string): void {
  stream.write(text.endsWith("\n") ? text : `${text}\n`);
}
