import { createInterface } from "node:readline";
import type { Context } from "../context.ts";

/** What a person types, line by line. The terminal itself lets them correct a line before Enter. */
export interface TypedLines {
  /** The next line after a prompt; undefined at the end of input (Ctrl-D). */
  readonly next: (prompt: string) => Promise<string | undefined>;
  readonly close: () => void;
}

export function typedLines({ input, redraw }: Context): TypedLines {
  const reader = createInterface({ input, terminal: false });
  const lines = reader[Symbol.asyncIterator]();
  return {
    next: async (prompt) => {
      redraw(prompt);
      const { done, value } = await lines.next();
      return done === true ? undefined : typedText(value);
    },
    close: () => reader.close(),
  };
}

/** Without what arrow keys and the like put into a line (ECMA-48 control sequences). */
function typedText(line: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  return line.replace(/\u001b(?:\[[0-?]*[ -/]*[@-~]|.)?|[\u0000-\u001f\u007f]/g, "");
}
