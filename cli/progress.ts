import type { Context } from "./context.ts";

export interface Progress {
  /** Says that `done` of the total is finished. */
  readonly at: (done: number, detail?: string) => void;
  /** Ends the display. */
  readonly end: () => void;
}

const BAR_CELLS = 30;
const PLAIN_STEPS = 10;

/**
 * Shows how far long work has come, on standard error: a bar that is drawn over on a terminal, about ten plain
 * lines elsewhere, nothing for work of one step.
 */
export function progress(context: Context, label: string, total: number): Progress {
  let lastPlain = 0;
  if (total <= 1) return { at: () => {}, end: () => {} };
  return {
    at(done, detail = "") {
      if (context.live) {
        const filled = Math.round((done / total) * BAR_CELLS);
        const bar = `${"=".repeat(filled)}${".".repeat(BAR_CELLS - filled)}`;
        const text = `${label} [${bar}] ${done} of ${total} ${detail}`.slice(0, context.columns - 1);
        context.redraw(text.padEnd(context.columns - 1));
      } else {
        const plain = Math.floor((done / total) * PLAIN_STEPS);
        if (plain > lastPlain) {
          lastPlain = plain;
          context.err(`${label}: ${done} of ${total}${detail === "" ? "" : ` (${detail})`}`);
        }
      }
    },
    end() {
      if (context.live) context.err("");
    },
  };
}
