import type { Configuration } from "../../../model/index.ts";
import { encodeText } from "../encoding.ts";
import type { LoadedMap } from "../load-map.ts";
import { type InterpretedExport, interpretExport, openExport } from "../read-export.ts";
import { applyEdits } from "../text-edit.ts";
import { type Leaf, lineFinder, pointerPart } from "../tree.ts";
import { cannotHold, type LeftField, leftOf } from "./left.ts";
import { restructure } from "./restructure.ts";
import { type AddedItem, type RemovedItem, tellRestructuring, type WrittenPlace } from "./told.ts";
import { Writer } from "./writer.ts";

/** The name of an export, and whether losses are accepted. */
export interface WriteExportOptions {
  /** Name of the original export's file, for messages. */
  readonly file?: string;
  /** True: written also where the export rounds a value or has no room for it; `left` tells what. Default false. */
  readonly acceptLosses?: boolean;
}

/** An export with values written into it, and an account of them. */
export interface WrittenExport {
  readonly bytes: Uint8Array;
  /** Values that are other than in the original, except those of items added and removed. */
  readonly changed: readonly WrittenPlace[];
  readonly added: readonly AddedItem[];
  readonly removed: readonly RemovedItem[];
  readonly left: readonly LeftField[];
  /** JSON Pointers of the configuration's fields for which the map has no rule: nothing of them is in any export. */
  readonly beyond: readonly string[];
}

/**
 * Writes a configuration into an export. All that no rule reads stays as it is in the original; a value that is the same
 * keeps its very characters, so that writing what was read gives the same bytes. Items that the configuration has more
 * are added as copies of their neighbours, those that it lacks are taken out, each in the way of the format. What was
 * written is read again and held against the configuration: what it does not hold is told, never passed over.
 *
 * @param original the export to write into: of the same unit, so that places that the map does not know are right
 * @throws BoothkeepError as readExport for the original; export.cannot-hold with `data.left` where something is rounded or
 *   has no room and losses are not accepted; export.wrong-encoding for a letter that the export's encoding lacks
 */
export function writeExport(
  configuration: Configuration,
  original: Uint8Array,
  loaded: LoadedMap,
  options: WriteExportOptions = {},
): WrittenExport {
  const file = options.file === undefined ? {} : { file: options.file };
  const opened = interpretExport(original, loaded, { ...file, base: configuration });
  const writer = new Writer(configuration, loaded);
  const grown = restructure({ ...opened, text: opened.decoded.text }, writer, loaded);
  const edits = editsFor(writer, grown);
  const isSame = edits.length === 0 && grown.text === opened.decoded.text;
  const text = applyEdits(grown.text, edits);
  const bytes = isSame ? original : encodeText({ ...opened.decoded, text });
  const written = isSame ? opened : interpretExport(bytes, loaded, { ...file, base: configuration });
  const left = leftOf(configuration, written);
  const losses = left.filter(({ reason }) => reason !== "outside");
  if (losses.length > 0 && options.acceptLosses !== true) throw cannotHold(losses).at(file);
  if (losses.length > 0) openExport(bytes, loaded, { ...file, base: configuration });
  const lineAt = lineFinder(text);
  const told = tellRestructuring(grown.done, opened, written);
  const isOfAdded = ({ pointer }: Leaf) => told.added.some((item) => pointer.startsWith(`${item.pointer}/`));
  const changed = edits
    .filter(({ leaf }) => !isOfAdded(leaf))
    .map(({ leaf, raw }) => {
      const { pointer, start } = written.tree.leaves.get(leaf.pointer) ?? leaf;
      return { pointer, line: lineAt(start), before: leaf.raw, after: raw };
    });
  const beyond = fieldsBeyond(configuration, loaded);
  return { bytes, ...told, changed: [...changed, ...told.changed], left, beyond };
}

const OF_THE_DOCUMENT: ReadonlySet<string> = new Set(["$schema", "kind", "schemaVersion"]);

function fieldsBeyond(configuration: Configuration, { bound }: LoadedMap): readonly string[] {
  const found: string[] = [];
  const visit = (value: unknown, pointer: string, path: string): void => {
    if (Array.isArray(value)) {
      for (const [i, item] of value.entries()) visit(item, `${pointer}/${i}`, `${path}[]`);
    } else if (typeof value === "object" && value !== null) {
      for (const [name, member] of Object.entries(value))
        visit(member, pointer + pointerPart(name), path === "" ? name : `${path}.${name}`);
    } else if (!bound.has(path) && !OF_THE_DOCUMENT.has(path)) found.push(pointer);
  };
  visit(configuration, "", "");
  return found;
}

interface ValueEdit {
  readonly leaf: Leaf;
  readonly start: number;
  readonly end: number;
  /** Text that takes the leaf's place. */
  readonly text: string;
  /** The same, unescaped. */
  readonly raw: string;
}

function editsFor(
  writer: Writer,
  { tree, interpretation }: Pick<InterpretedExport, "tree" | "interpretation">,
): readonly ValueEdit[] {
  const edits = new Map<string, ValueEdit>();
  for (const binding of interpretation.bindings) {
    const { leaf } = binding;
    const raw = writer.rawFor(binding);
    if (raw === undefined || raw === leaf.raw) continue;
    const text = tree.write(leaf, raw);
    if (text !== undefined) edits.set(leaf.pointer, { leaf, start: leaf.start, end: leaf.end, text, raw });
  }
  return [...edits.values()].sort((a, b) => a.start - b.start);
}
