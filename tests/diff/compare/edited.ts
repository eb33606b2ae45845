import type { Configuration } from "../../../src/model/index.ts";
import { asLeft } from "../changes/samples.ts";

/** A configuration whose members can be set. */
// biome-ignore lint/suspicious/noExplicitAny: a test edits any part of a document that has just been copied
export type Draft = any;

/** A copy of the large sample with an edit. */
export function edited(edit: (draft: Draft) => void, base: Configuration = asLeft): Configuration {
  const draft: Draft = structuredClone(base);
  edit(draft);
  return draft as Configuration;
}

/** The item of a list with this id. */
export function item(list: Draft, id: string): Draft {
  const found = list.find((one: Draft) => one.id === id || one.channelId === id);
  if (found === undefined) throw new Error(`no item '${id}'`);
  return found;
}
