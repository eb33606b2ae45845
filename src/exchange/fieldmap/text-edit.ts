import type { ExportTree, Leaf } from "./tree.ts";

/** A piece of a text that another takes the place of; where both ends are one, something is put in. */
export interface TextEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The text with all edits made. Edits do not overlap; those at one place keep their order. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const edit of inOrder(edits)) {
    pieces.push(text.slice(at, edit.start), edit.text);
    at = Math.max(at, edit.end);
  }
  return pieces.join("") + text.slice(at);
}

/** What is put in before a piece comes before what takes the piece's place. */
function inOrder(edits: readonly TextEdit[]): readonly TextEdit[] {
  return [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
}

/** A piece of a text with other values in some of its places; undefined where one of them cannot be written there. */
export function withValues(
  text: string,
  piece: { readonly start: number; readonly end: number },
  leaves: readonly Leaf[],
  raws: ReadonlyMap<string, string>,
  write: ExportTree["write"],
): string | undefined {
  const edits: TextEdit[] = [];
  for (const leaf of leaves) {
    const raw = raws.get(leaf.pointer);
    if (raw === undefined || raw === leaf.raw) continue;
    const written = write(leaf, raw);
    if (written === undefined) return undefined;
    edits.push({ start: leaf.start - piece.start, end: leaf.end - piece.start, text: written });
  }
  return applyEdits(text.slice(piece.start, piece.end), edits);
}
