import { eastAsianWidth } from "get-east-asian-width";

/** Letters, digits, punctuation and lines that take one column each: no need to look every one of them up. */
const NARROW = /^[\u0020-\u007e\u00a1-\u00ac\u00ae-\u02ff\u2010-\u2027\u2212\u2500-\u257f]*$/;

const UNSEEN =
  /^[\p{Default_Ignorable_Code_Point}\p{Control}\p{Format}\p{Nonspacing_Mark}\p{Enclosing_Mark}\p{Surrogate}]$/u;

/** What makes a pictograph of a character: color by itself, a selector that asks for it, a keycap, a pair of flag letters. */
const PICTOGRAPH =
  /\p{Emoji_Presentation}|\p{Emoji}\ufe0f|\p{Extended_Pictographic}\u200d|\u20e3|\p{RI}\p{RI}/u;

/** Characters that follow another one in the same cluster and take room of their own. */
const TAKES_ROOM = /[\p{Spacing_Mark}\u1100-\u115f\ua960-\ua97c\uac00-\ud7a3\uff00-\uffef]/u;

let segmenter: Intl.Segmenter | undefined;

/** The characters of a text as a person sees them. What divides is made late: it takes as long as a small command. */
function clustersOf(text: string): readonly string[] {
  segmenter ??= new Intl.Segmenter("en", { granularity: "grapheme" });
  return Array.from(segmenter.segment(text), ({ segment }) => segment);
}

/** How many columns a text takes on a terminal: wide characters (UAX #11) take two, combining ones none. */
export function widthOf(text: string): number {
  if (NARROW.test(text)) return text.length;
  return clustersOf(text).reduce((sum, cluster) => sum + clusterWidth(cluster), 0);
}

function clusterWidth(cluster: string): number {
  const [base, ...rest] = [...cluster].filter((character) => !UNSEEN.test(character));
  if (base === undefined) return 0;
  if (PICTOGRAPH.test(cluster)) return 2;
  return [base, ...rest.filter((character) => TAKES_ROOM.test(character))].reduce(
    (sum, character) => sum + eastAsianWidth(character.codePointAt(0)!),
    0,
  );
}

/** Cuts a word that is wider than a line into pieces that fit, never inside a character as a person sees it. */
function piecesOf(word: string, columns: number): string[] {
  if (widthOf(word) <= columns) return [word];
  const pieces: string[] = [];
  let piece = "";
  for (const cluster of clustersOf(word)) {
    if (piece !== "" && widthOf(piece + cluster) > columns) {
      pieces.push(piece);
      piece = "";
    }
    piece += cluster;
  }
  pieces.push(piece);
  return pieces;
}

/** A space between a number and its unit, where no line may end. */
const BEFORE_UNIT = /(?<=\d) (?=(?:dB|dBFS|k?Hz|ms|m|°C|W|Ω)(?![\p{L}\d]))/gu;
const NO_BREAK = "\u00a0";

/** Breaks a text at spaces into lines of at most `columns` (at least 2) columns; longer words are cut. Never empty. */
export function wrapLines(text: string, columns: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text
    .replace(BEFORE_UNIT, NO_BREAK)
    .split(" ")
    .filter((part) => part !== "")) {
    for (const piece of piecesOf(word.replaceAll(NO_BREAK, " "), columns)) {
      if (line === "") line = piece;
      else if (widthOf(line) + 1 + widthOf(piece) <= columns) line += ` ${piece}`;
      else {
        lines.push(line);
        line = piece;
      }
    }
  }
  lines.push(line);
  return lines;
}

/** Fills a text up to a width with spaces. */
export function pad(text: string, columns: number, align: "start" | "end" | "center" = "start"): string {
  const room = Math.max(0, columns - widthOf(text));
  const before = align === "end" ? room : align === "center" ? Math.floor(room / 2) : 0;
  return " ".repeat(before) + text + " ".repeat(room - before);
}
