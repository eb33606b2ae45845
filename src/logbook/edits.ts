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

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COLON = 0x3a;
/** Structure: `{` `}` `[` `]` `,` `:`. Canonical texts have no white space outside strings. */
const STRUCTURE = new Set([0x7b, 0x7d, 0x5b, 0x5d, 0x2c, COLON]);

/**
 * Where the pieces of an RFC 8785 text end: structure (with the names in it) at even positions, scalars at odd ones.
 * The last piece ends where the text does.
 */
export function pieceEnds(canonical: string): readonly number[] {
  const ends: number[] = [];
  let at = 0;
  while (at < canonical.length) {
    const code = canonical.charCodeAt(at);
    if (STRUCTURE.has(code)) {
      at += 1;
      continue;
    }
    const end = code === QUOTE ? stringEnd(canonical, at) : literalEnd(canonical, at);
    if (code !== QUOTE || canonical.charCodeAt(end) !== COLON) ends.push(at, end);
    at = end;
  }
  ends.push(canonical.length);
  return ends;
}

function stringEnd(text: string, start: number): number {
  let at = start + 1;
  for (let code = text.charCodeAt(at); code !== QUOTE && at < text.length; code = text.charCodeAt(at)) {
    at += code === BACKSLASH ? 2 : 1;
  }
  return at + 1;
}

function literalEnd(text: string, start: number): number {
  let at = start;
  while (at < text.length && !STRUCTURE.has(text.charCodeAt(at))) at += 1;
  return at;
}

/** The pieces of an RFC 8785 text: structure at even positions, scalars at odd ones. */
export function pieces(canonical: string): readonly string[] {
  let start = 0;
  return pieceEnds(canonical).map((end) => {
    const piece = canonical.slice(start, end);
    start = end;
    return piece;
  });
}

/**
 * The text that the edits make of a base, or undefined when they do not fit it. The caller compares the result's
 * SHA-256 with the one it expects.
 */
export function applyEdits(base: string, edits: Edits): string | undefined {
  const ends = pieceEnds(base);
  const startOf = (piece: number) => (piece === 0 ? 0 : ends[piece - 1]!);
  let out = "";
  let at = 0;
  for (const [index, add] of edits.add.entries()) {
    const keep = edits.keep[index];
    const drop = edits.drop[index];
    if (keep === undefined || drop === undefined || at + keep + drop > ends.length) return undefined;
    out += base.slice(startOf(at), startOf(at + keep)) + add;
    at += keep + drop;
  }
  return out + base.slice(startOf(at));
}

/**
 * Edits that make `next` of `base`. Scalars are paired by their place (names and item ids), so that an item added in
 * the middle of a list costs that item only; texts of the same structure are paired one by one.
 */
export function editsBetween(base: string, next: string): Edits {
  const from = pieces(base);
  const to = pieces(next);
  const writer = new EditWriter();
  let a = 0;
  let b = 0;
  for (const [i, j] of sameStructure(from, to) ? everyScalar(from) : pairByPlace(base, next)) {
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

function sameStructure(a: readonly string[], b: readonly string[]): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 2) if (a[index] !== b[index]) return false;
  return true;
}

function everyScalar(from: readonly string[]): (readonly [number, number])[] {
  return Array.from({ length: (from.length - 1) / 2 }, (_, index) => [index, index] as const);
}

/** Pairs of scalars at the same place, in an order that both texts share. */
function pairByPlace(base: string, next: string): (readonly [number, number])[] {
  const positions = new Map(placesOf(JSON.parse(base)).map((place, index) => [place, index]));
  const pairs: (readonly [number, number])[] = [];
  let from = 0;
  for (const [j, place] of placesOf(JSON.parse(next)).entries()) {
    const i = positions.get(place);
    if (i === undefined || i < from) continue;
    pairs.push([i, j]);
    from = i + 1;
  }
  return pairs;
}

/** The place of every scalar, in the order of the canonical text (RFC 8785 section 3.2.3: by UTF-16 code units). */
function placesOf(document: unknown): readonly string[] {
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
  visit(document, "");
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
