import { type ItemPath, type Json, removeAt, setAt } from "../../model/index.ts";

/** Writes a value at a place of a draft. What a standard says with null is that nothing is there. */
export function writeAt(draft: object, path: ItemPath, value: Json | undefined): void {
  if (value === null || value === undefined) removeAt(draft, path);
  else setAt(draft, path, value);
}
