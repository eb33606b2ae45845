import { pointerParts } from "../../base/findings/index.ts";
import { type Configuration, pointerTo } from "../../model/index.ts";
import { placeOf } from "../../words/index.ts";

/** A place of a configuration, by ids, in the engineer's words. */
export function wordsAt(configuration: Configuration, path: readonly string[]): string {
  const at = pointerParts(pointerTo(configuration, path)).map((part) =>
    /^(0|[1-9][0-9]*)$/.test(part) ? Number(part) : part,
  );
  return placeOf(configuration, at).words;
}
