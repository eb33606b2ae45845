import type { KeyValueSource } from "../../../model/index.ts";
import type { StructuralChange } from "../structural-change.ts";
import { type ExportTree, NONE } from "../tree.ts";
import { TreeGrower } from "./grower.ts";
import { keysAndValues, valueWriter } from "./key-value-lines.ts";
import { keyValueDocument } from "./key-value-structure.ts";
import { restructureLines } from "./line-structure.ts";

/**
 * Reads lines of a key and a value, with or without sections. A key that stands twice is refused, unless the source says
 * that it may: which of the two holds cannot be known.
 *
 * @throws BoothkeepError export.not-readable
 */
export function keyValueTree(text: string, source: KeyValueSource): ExportTree {
  const grower = new TreeGrower(text);
  keysAndValues(text, source, (line) => {
    if (line.kind === "section") grower.objectAt(line.path, line.start);
    else {
      const { value } = line;
      const style = value.quoted ? "quoted" : "rest";
      grower.set(line.path, { raw: value.raw, start: value.start, end: value.end, style });
    }
  });
  const restructure = (changes: readonly StructuralChange[]) =>
    restructureLines(changes, keyValueDocument(text, source));
  return { root: grower.root, leaves: grower.leaves, nothing: NONE, write: valueWriter(source), restructure };
}
