import type { LinesSource } from "../../../model/index.ts";
import type { StructuralChange } from "../structural-change.ts";
import { type ExportTree, type Leaf, linesOf, NONE } from "../tree.ts";
import { TreeGrower } from "./grower.ts";
import {
  type CompiledForm,
  compileForm,
  type FoundValue,
  fitsExtent,
  formsByWord,
  matchForm,
  PLACEHOLDER,
} from "./line-forms.ts";
import { restructureLines } from "./line-structure.ts";
import { formDocument } from "./lines-structure.ts";

/**
 * Reads lines of words by their declared forms. A line of no form is a value at /unknown-lines/-, so that nothing of
 * the export is overlooked.
 *
 * @throws BoothkeepError export.not-readable, field-map.unusable
 */
export function linesTree(text: string, source: LinesSource): ExportTree {
  const forms = source.forms.map(compileForm);
  const { root, leaves } = growLines(text, source, forms);
  const restructure = (changes: readonly StructuralChange[]) => {
    const lines: FormLine[] = [];
    growLines(text, source, forms, (line) => lines.push(line));
    return restructureLines(changes, formDocument(text, { forms, lines, leaves, write: writeWord }));
  };
  return { root, leaves, nothing: NONE, write: writeWord, restructure };
}

/** A line with the form that it fits, and the place that it speaks of. */
export interface FormLine {
  readonly start: number;
  readonly end: number;
  readonly form: CompiledForm;
  readonly pointer: string;
  readonly found: readonly FoundValue[];
}

function growLines(
  text: string,
  { comments = [] }: LinesSource,
  forms: readonly CompiledForm[],
  tell?: (line: FormLine) => void,
): TreeGrower {
  const grower = new TreeGrower(text);
  const formsFor = formsByWord(forms);
  for (const { start, end } of linesOf(text)) {
    const line = text.slice(start, end);
    const bare = line.trim();
    if (bare === "" || comments.some((mark) => bare.startsWith(mark))) continue;
    const taken = takeLine(line, start, formsFor(line), grower);
    if (taken !== undefined) tell?.({ start, end, ...taken });
    else {
      const { object, pointer } = grower.objectAt(["unknown-lines", "-"], start);
      grower.setIn(object, pointer, "line", { raw: line, start, end, style: "rest" });
    }
  }
  return grower;
}

function takeLine(line: string, offset: number, forms: readonly CompiledForm[], grower: TreeGrower) {
  for (const form of forms) {
    const found = matchForm(line, form.parts);
    if (found === undefined) continue;
    const path = placeOf(form, found);
    const { object, pointer } = grower.objectAt(path, offset);
    for (const { name, style, raw, start, end } of found) {
      if (form.inPlace.has(name)) continue;
      grower.setIn(object, pointer, name, { raw, start: offset + start, end: offset + end, style });
    }
    return { form, pointer, found };
  }
  return undefined;
}

function placeOf(form: CompiledForm, found: readonly FoundValue[]): readonly string[] {
  const raws = new Map(found.map(({ name, raw }) => [name, raw]));
  return form.at.map((part) => part.replace(PLACEHOLDER, (_all, name: string) => raws.get(name) ?? ""));
}

function writeWord({ style }: Leaf, raw: string): string | undefined {
  if (/[\r\n]/.test(raw)) return undefined;
  if (style === "quoted") return raw.includes('"') ? undefined : `"${raw}"`;
  if (style === "rest") return raw === raw.trim() ? raw : undefined;
  if (style === "number" || style === "letters") return fitsExtent(style, raw) ? raw : undefined;
  return /^\S+$/.test(raw) ? raw : undefined;
}
