import { pointerParts } from "../../../base/findings/index.ts";
import type { NewPlace } from "../structural-change.ts";
import { type ExportTree, type Leaf, pointerPart } from "../tree.ts";
import { type CompiledForm, type FormPart, PLACEHOLDER } from "./line-forms.ts";
import type { LineDocument, PlacedLine } from "./line-structure.ts";
import type { FormLine } from "./lines.ts";

export interface FormedLines {
  readonly forms: readonly CompiledForm[];
  readonly lines: readonly FormLine[];
  readonly leaves: ReadonlyMap<string, Leaf>;
  readonly write: ExportTree["write"];
}

/** Lines of declared forms, each of which can be written for another place and with other values. */
export function formDocument(text: string, formed: FormedLines): LineDocument {
  const lines = formed.lines.map((line) => placedLine(text, line, formed));
  return { text, lines, newLines: (places, near) => newLines(places, near, formed) };
}

function placedLine(text: string, line: FormLine, { write }: FormedLines): PlacedLine {
  const { start, end, form, pointer, found } = line;
  const values = found.filter(({ name }) => !form.inPlace.has(name));
  const at = (name: string) => pointer + pointerPart(name);
  return {
    ...{ start, end },
    path: pointerParts(pointer),
    leaves: values.map(({ name }) => at(name)),
    rewrite: (path, raws) => {
      const place = placeholdersAt(form, path);
      if (place === undefined) return undefined;
      let from = start;
      let written = "";
      for (const value of found) {
        const raw = place.get(value.name) ?? raws.get(at(value.name)) ?? value.raw;
        const piece = write({ style: value.style } as Leaf, raw);
        if (piece === undefined) return undefined;
        written += text.slice(from, start + value.start) + piece;
        from = start + value.end;
      }
      return written + text.slice(from, end);
    },
  };
}

/** What the placeholders in a form's place are for a path; undefined where the form is for other places. */
function placeholdersAt(
  { at }: CompiledForm,
  path: readonly string[],
): ReadonlyMap<string, string> | undefined {
  if (at.length !== path.length) return undefined;
  const found = new Map<string, string>();
  for (const [i, part] of at.entries()) {
    const names = [...part.matchAll(PLACEHOLDER)];
    if (names.length === 0) {
      if (part !== path[i] && part !== "-") return undefined;
      continue;
    }
    const [{ 0: whole, 1: name, index }] = names as [RegExpExecArray];
    const [head, tail] = [part.slice(0, index), part.slice(index + whole.length)];
    const own = path[i]!;
    const fits = own.startsWith(head) && own.endsWith(tail) && own.length > head.length + tail.length;
    if (names.length > 1 || !fits) return undefined;
    found.set(name!, own.slice(head.length, own.length - tail.length));
  }
  return found;
}

/** A whole line is written or none: for every placeholder of its form there must be a value. */
function newLines(
  places: readonly NewPlace[],
  near: (path: readonly string[]) => PlacedLine | undefined,
  { forms, leaves, write }: FormedLines,
): readonly { readonly near: PlacedLine; readonly text: string }[] | undefined {
  const open = new Map(places.map((place) => [pointerOf(place), place]));
  const made: { near: PlacedLine; text: string }[] = [];
  for (const place of places) {
    if (place.filler || !open.has(pointerOf(place))) continue;
    const path = [...pointerParts(place.item), ...place.names.slice(0, -1)];
    const written = forms
      .map((form) => lineFor(form, path, { open, leaves, write }))
      .find((line) => line?.places.includes(place));
    const beside = near([...path, "-"]);
    if (written === undefined || beside === undefined) return undefined;
    for (const used of written.places) open.delete(pointerOf(used));
    made.push({ near: beside, text: written.text });
  }
  return made;
}

interface OpenPlaces extends Pick<FormedLines, "leaves" | "write"> {
  readonly open: ReadonlyMap<string, NewPlace>;
}

function lineFor(form: CompiledForm, path: readonly string[], { open, leaves, write }: OpenPlaces) {
  const inPlace = placeholdersAt(form, path);
  if (inPlace === undefined) return undefined;
  const base = path.map(pointerPart).join("");
  const places: NewPlace[] = [];
  let text = "";
  for (const part of form.parts) {
    if (part.kind !== "value") {
      text += part.kind === "space" ? " " : part.text;
      continue;
    }
    const pointer = base + pointerPart(part.name);
    const place = open.get(pointer);
    if (place === undefined && inPlace.get(part.name) === undefined) return undefined;
    if (leaves.has(pointer)) return undefined;
    if (place !== undefined) places.push(place);
    const word = wordOf(part, inPlace.get(part.name) ?? place!.raw, write);
    if (word === undefined) return undefined;
    text += word;
  }
  return { text, places };
}

function wordOf(
  { style }: Extract<FormPart, { readonly kind: "value" }>,
  raw: string,
  write: ExportTree["write"],
): string | undefined {
  return write({ style } as Leaf, raw);
}

function pointerOf({ item, names }: NewPlace): string {
  return item + names.map(pointerPart).join("");
}
