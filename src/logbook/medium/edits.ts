/**
 * How one canonical text follows from another: an RFC 8785 text is cut into pieces, structure and scalars in turn
 * (`{"a":`, `1`, `,"b":[`, `2`, `]}`); each edit keeps some pieces of the base, drops some, and adds a text. What is
 * left of the base after the last edit is kept.
 */
export interface Edits {
  readonly keep: readonly number[];
  readonly drop: readonly number[];
  readonly add: readonly string[];
}

/** A canonical text cut up: structure at even positions, scalars at odd ones. */
export type Pieces = readonly string[];

const STRING = String.raw`"[^"\\]*(?:\\.[^"\\]*)*"`;
const SCALAR = `${STRING}(?!:)|[^[\\]{},:"]+`;
/** Structure (brackets, commas, names with their colons), then a scalar; only right behind the last one. */
const STEP = new RegExp(`((?:[[\\]{},]|${STRING}:)*)(${SCALAR})`, "y");
const ONE_SCALAR = new RegExp(`^(?:${SCALAR})$`);

/** The pieces of an RFC 8785 text. */
export function pieces(canonical: string): Pieces {
  const out: string[] = [];
  let end = 0;
  STEP.lastIndex = 0;
  for (let step = STEP.exec(canonical); step !== null; step = STEP.exec(canonical)) {
    out.push(step[1]!, step[2]!);
    end = STEP.lastIndex;
  }
  out.push(canonical.slice(end));
  return out;
}

/**
 * The pieces that the edits make of a base, or undefined when they do not fit it. The caller compares the SHA-256 of
 * the text with the one it expects.
 */
export function applyEdits(base: Pieces, edits: Edits): Pieces | undefined {
  return replaceScalars(base, edits) ?? rebuild(base, edits);
}

/** Most visits change values only: then pieces stay where they are. */
function replaceScalars(base: Pieces, { keep, drop, add }: Edits): Pieces | undefined {
  const out = base.slice();
  let at = 0;
  for (const [index, text] of add.entries()) {
    at += keep[index] ?? Number.NaN;
    if (at % 2 !== 1 || at >= base.length || drop[index] !== 1 || !ONE_SCALAR.test(text)) return undefined;
    out[at] = text;
    at += 1;
  }
  return out;
}

function rebuild(base: Pieces, edits: Edits): Pieces | undefined {
  const out: string[] = [];
  let at = 0;
  for (const [index, add] of edits.add.entries()) {
    const keep = edits.keep[index];
    const drop = edits.drop[index];
    if (keep === undefined || drop === undefined || at + keep + drop > base.length) return undefined;
    out.push(...base.slice(at, at + keep), add);
    at += keep + drop;
  }
  return pieces([...out, ...base.slice(at)].join(""));
}

/**
 * Edits that make `to` of `from`. Scalars are paired by their place (names and item ids), so that an item added in the
 * middle of a list costs that item only; texts of the same structure are paired one by one.
 */
export function editsBetween(from: Pieces, to: Pieces): Edits {
  const writer = new EditWriter();
  let a = 0;
  let b = 0;
  for (const [i, j] of sameStructure(from, to) ? everyScalar(from) : pairByPlace(from, to)) {
    // Piece 2i is the structure before scalar i, piece 2i + 1 the scalar.
    writer.replace(2 * i - a, to.slice(b, 2 * j));
    for (const offset of [0, 1]) writer.settle(from[2 * i + offset]!, to[2 * j + offset]!);
    a = 2 * i + 2;
    b = 2 * j + 2;
  }
  writer.replace(from.length - 1 - a, to.slice(b, -1));
  writer.settle(from.at(-1)!, to.at(-1)!);
  return writer.finish();
}

class EditWriter {
  private readonly keep: number[] = [];
  private readonly drop: number[] = [];
  private readonly add: string[] = [];
  private kept = 0;
  private dropped = 0;
  private added = "";

  settle(old: string, wanted: string): void {
    if (old !== wanted) {
      this.replace(1, [wanted]);
    } else {
      if (this.dropped > 0 || this.added !== "") this.flush();
      this.kept += 1;
    }
  }

  replace(count: number, texts: readonly string[]): void {
    this.dropped += count;
    this.added += texts.join("");
  }

  finish(): Edits {
    if (this.dropped > 0 || this.added !== "") this.flush();
    return { keep: this.keep, drop: this.drop, add: this.add };
  }

  private flush(): void {
    this.keep.push(this.kept);
    this.drop.push(this.dropped);
    this.add.push(this.added);
    this.kept = 0;
    this.dropped = 0;
    this.added = "";
  }
}

function sameStructure(a: Pieces, b: Pieces): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 2) if (a[index] !== b[index]) return false;
  return true;
}

function everyScalar(from: Pieces): (readonly [number, number])[] {
  return Array.from({ length: (from.length - 1) / 2 }, (_, index) => [index, index] as const);
}

/** Pairs of scalars at the same place, in an order that both texts share. */
function pairByPlace(base: Pieces, next: Pieces): (readonly [number, number])[] {
  const positions = new Map(placesOf(base).map((place, index) => [place, index]));
  const pairs: (readonly [number, number])[] = [];
  let from = 0;
  for (const [j, place] of placesOf(next).entries()) {
    const i = positions.get(place);
    if (i === undefined || i < from) continue;
    pairs.push([i, j]);
    from = i + 1;
  }
  return pairs;
}

/** The place of every scalar, in the order of the canonical text (RFC 8785 section 3.2.3: by UTF-16 code units). */
function placesOf(document: Pieces): readonly string[] {
  const places: string[] = [];
  const visit = (value: unknown, place: string): void => {
    if (Array.isArray(value)) {
      const keyed = keyedItems(value);
      for (const [index, item] of value.entries()) {
        visit(item, `${place}/${keyed ? `=${pairingKey(item)}` : index}`);
      }
    } else if (typeof value === "object" && value !== null) {
      const members = value as Readonly<Record<string, unknown>>;
      for (const name of Object.keys(members).sort()) visit(members[name], `${place}/${name}`);
    } else {
      places.push(place);
    }
  };
  visit(JSON.parse(document.join("")), "");
  return places;
}

function keyedItems(items: readonly unknown[]): boolean {
  const keys = items.map(pairingKey);
  return keys.every((key) => typeof key === "string") && new Set(keys).size === keys.length;
}

/** What tells the items of a list apart; a poor choice here costs bytes, never correctness. */
function pairingKey(item: unknown): unknown {
  const { id, channelId } = (item ?? {}) as { readonly id?: unknown; readonly channelId?: unknown };
  return id ?? channelId;
}
