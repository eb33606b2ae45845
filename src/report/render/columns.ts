import stringWidth from "string-width";

/** Letters, digits, punctuation and lines that take one column each: no need to look every one of them up. */
const NARROW = /^[\u0020-\u007e\u00a1-\u00ac\u00ae-\u02ff\u2010-\u2027\u2212\u2500-\u257f]*$/;

/** How many columns a text takes on a terminal: wide characters (UAX #11) take two, combining ones none. */
export function widthOf(text: string): number {
  return NARROW.test(text) ? text.length : stringWidth(text);
}

const graphemes = new Intl.Segmenter("en", { granularity: "grapheme" });

/** Cuts a word that is wider than a line into pieces that fit, never inside a character as a person sees it. */
function piecesOf(word: string, columns: number): string[] {
  if (widthOf(word) <= columns) return [word];
  const pieces: string[] = [];
  let piece = "";
  for (const { segment } of graphemes.segment(word)) {
    if (piece !== "" && widthOf(piece + segment) > columns) {
      pieces.push(piece);
      piece = "";
    }
    piece += segment;
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
