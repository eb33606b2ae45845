/** What an expression for names says, as a set of characters and lengths. */
export interface LabelSetOfExpression {
  /** Characters and ranges, in the order of the expression: "A-Z", "+". */
  readonly characters: readonly string[];
  readonly minLength: number;
  /** Absent: the expression sets no limit. */
  readonly maxLength?: number;
}

type Range = readonly [first: number, last: number];

interface Atom {
  readonly ranges: readonly Range[];
  readonly min: number;
  readonly max: number;
}

const LAST = 0x10ffff;
/** Line feed, carriage return, line and paragraph separator: what "." leaves out (ECMA-262, LineTerminator). */
const LINE_ENDS = [0x0a, 0x0d, 0x2028, 0x2029];
const DIGITS: readonly Range[] = [rangeOf("0", "9")];
const WORD: readonly Range[] = [rangeOf("A", "Z"), rangeOf("a", "z"), ...DIGITS, rangeOf("_", "_")];
const CONTROL: Readonly<Record<string, number>> = { t: 9, n: 10, v: 11, f: 12, r: 13, "0": 0 };

/**
 * The set and the lengths behind a regular expression (ECMA-262 with the flag u) of the form that profiles used:
 * `^`, one class of characters how often, `$`. An expression is never run: it is read, once, from left to right.
 *
 * @returns words that say why, where the expression says something else than a set and lengths
 */
export function labelSetOfExpression(expression: string): LabelSetOfExpression | string {
  const reading = new Reading(expression);
  try {
    return reading.set();
  } catch (error) {
    if (error instanceof NotASet) return error.message;
    throw error;
  }
}

class NotASet extends Error {}

class Reading {
  readonly #points: readonly string[];
  #at = 0;

  constructor(expression: string) {
    this.#points = [...expression];
  }

  set(): LabelSetOfExpression {
    if (!this.#take("^")) throw new NotASet("it does not begin with '^', so it says nothing of a whole name");
    const atoms: Atom[] = [];
    while (this.#at < this.#points.length - 1) atoms.push(this.#atom());
    if (!this.#take("$")) throw new NotASet("it does not end with '$', so it says nothing of a whole name");
    const [first] = atoms;
    if (first === undefined) throw new NotASet("it takes no character at all");
    if (atoms.some(({ ranges }) => key(ranges) !== key(first.ranges))) {
      throw new NotASet("it takes other characters at one place of a name than at another");
    }
    const minLength = atoms.reduce((sum, { min }) => sum + min, 0);
    const maxLength = atoms.reduce((sum, { max }) => sum + max, 0);
    return {
      characters: first.ranges.map(written),
      minLength,
      ...(Number.isFinite(maxLength) ? { maxLength } : {}),
    };
  }

  #atom(): Atom {
    const ranges = this.#class();
    const [min, max] = this.#times();
    return { ranges, min, max };
  }

  #class(): readonly Range[] {
    const point = this.#next();
    if (point === "[") return this.#brackets();
    if (point === ".") return complement(LINE_ENDS.map((end) => [end, end]));
    if (point === "\\") return this.#escaped();
    if ("()|*+?{}]^$/".includes(point)) {
      throw new NotASet(`'${point}' says more than which characters a name takes and how many`);
    }
    return [[codeOf(point), codeOf(point)]];
  }

  #brackets(): readonly Range[] {
    const isNegated = this.#take("^");
    const ranges: Range[] = [];
    while (!this.#take("]")) {
      const from = this.#member();
      const isRange = this.#peek() === "-" && this.#points[this.#at + 1] !== "]" && from.length === 1;
      if (!isRange) {
        ranges.push(...from);
        continue;
      }
      this.#at += 1;
      const [to, ...more] = this.#member();
      if (to === undefined || more.length > 0 || from[0]![0] !== from[0]![1] || to[0] !== to[1]) {
        throw new NotASet("a range in it has no first or no last character");
      }
      if (to[0] < from[0]![0]) throw new NotASet("a range in it runs backwards");
      ranges.push([from[0]![0], to[0]]);
    }
    const all = isNegated ? complement(ranges) : ranges;
    if (all.length === 0) throw new NotASet("it takes no character at all");
    return all;
  }

  #member(): readonly Range[] {
    const point = this.#next();
    return point === "\\" ? this.#escaped() : [[codeOf(point), codeOf(point)]];
  }

  #escaped(): readonly Range[] {
    const point = this.#next();
    if (point === "d") return DIGITS;
    if (point === "w") return WORD;
    if (point === "x") return single(this.#hex(2));
    if (point === "u") return single(this.#take("{") ? this.#hexUntil("}") : this.#hex(4));
    const control = CONTROL[point];
    if (control !== undefined) return single(control);
    if (/[\^$\\.*+?()[\]{}|/-]/.test(point)) return single(codeOf(point));
    throw new NotASet(`'\\${point}' names characters that a list of ranges cannot name`);
  }

  #hex(digits: number): number {
    const text = this.#points.slice(this.#at, this.#at + digits).join("");
    this.#at += digits;
    return hexOf(text, digits);
  }

  #hexUntil(end: string): number {
    let text = "";
    while (!this.#take(end)) text += this.#next();
    return hexOf(text, text.length);
  }

  #times(): readonly [min: number, max: number] {
    const sign = this.#peek();
    if (sign === "{") {
      this.#at += 1;
      return this.#counted();
    }
    if (sign !== "*" && sign !== "+" && sign !== "?") return [1, 1];
    this.#at += 1;
    // A quantifier that takes as little as it can fits the same names.
    this.#take("?");
    return [sign === "+" ? 1 : 0, sign === "?" ? 1 : Number.POSITIVE_INFINITY];
  }

  #counted(): readonly [min: number, max: number] {
    let text = "";
    while (!this.#take("}")) text += this.#next();
    const [, first, comma, last] = /^([0-9]{1,4})(?:(,)([0-9]{0,4}))?$/.exec(text) ?? [];
    const min = Number(first);
    const max = comma === undefined ? min : last === "" ? Number.POSITIVE_INFINITY : Number(last);
    if (!(min <= max)) throw new NotASet(`'{${text}}' is no count`);
    this.#take("?");
    return [min, max];
  }

  #peek(): string | undefined {
    return this.#points[this.#at];
  }

  #take(point: string): boolean {
    if (this.#peek() !== point) return false;
    this.#at += 1;
    return true;
  }

  #next(): string {
    const point = this.#peek();
    if (point === undefined) throw new NotASet("it breaks off");
    this.#at += 1;
    return point;
  }
}

function rangeOf(first: string, last: string): Range {
  return [codeOf(first), codeOf(last)];
}

function single(code: number): readonly Range[] {
  return [[code, code]];
}

function codeOf(point: string): number {
  return point.codePointAt(0)!;
}

function hexOf(text: string, digits: number): number {
  const isHex = text.length === digits && /^[0-9A-Fa-f]{1,6}$/.test(text);
  const code = isHex ? Number.parseInt(text, 16) : Number.NaN;
  if (!(code <= LAST) || (code >= 0xd800 && code <= 0xdfff))
    throw new NotASet("an escape in it is no character");
  return code;
}

/** Every character that the ranges leave out. */
function complement(ranges: readonly Range[]): readonly Range[] {
  const left: Range[] = [];
  let from = 0;
  for (const [first, last] of merged(ranges)) {
    if (first > from) left.push([from, first - 1]);
    from = last + 1;
  }
  if (from <= LAST) left.push([from, LAST]);
  return left;
}

function merged(ranges: readonly Range[]): readonly Range[] {
  const all: Range[] = [];
  for (const [first, last] of [...ranges].sort((a, b) => a[0] - b[0])) {
    const before = all.at(-1);
    if (before !== undefined && first <= before[1] + 1)
      all[all.length - 1] = [before[0], Math.max(before[1], last)];
    else all.push([first, last]);
  }
  return all;
}

function key(ranges: readonly Range[]): string {
  return JSON.stringify(merged(ranges));
}

function written([first, last]: Range): string {
  if ([first, last].some((code) => LINE_ENDS.includes(code)))
    throw new NotASet("it takes line ends in a name");
  const [from, to] = [String.fromCodePoint(first), String.fromCodePoint(last)];
  return first === last ? from : `${from}-${to}`;
}
