import { harmlessText } from "../src/public/report.ts";
import type { Context } from "./context.ts";

/** A context in which no text that goes out acts: renderers see to it already, this is for what none has seen. */
export function harmlessContext(context: Context): Context {
  return {
    ...context,
    out: (text) => context.out(harmlessText(text, context)),
    err: (text) => context.err(harmlessText(text, context)),
  };
}
