/**
 * Characters that act instead of being seen: control characters (Unicode category Cc, which holds ANSI escapes,
 * line ends and tabs), line and paragraph separators (Zl, Zp), format characters (Cf: direction overrides and
 * isolates of UAX #9, zero-width characters, tags), lone surrogates (Cs); and noncharacters, which no document may carry
 * (Unicode 3.4, D14). The joiners U+200C and U+200D stay: some
 * scripts cannot be written without them.
 */
export const ACTING = /(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Noncharacter_Code_Point}]/gu;

/**
 * A text from outside in which nothing acts any more: every acting character is shown by its code point, "[U+202E]".
 * Every renderer passes every text through here.
 *
 * @example
 * harmless("Left\u001b[31m"); // "Left[U+001B][31m"
 */
export function harmless(text: string): string {
  return text.replace(
    ACTING,
    (char) => `[U+${(char.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}]`,
  );
}

/** What may stand in a finished text beside plain characters: line ends, tabs, a mark at the start, and the colors of ours. */
const KEPT = /^\ufeff|\r?\n|\t/.source;
const COLOR = String.raw`\u001b\[[0-9;]*m`;
const FINISHED = { plain: pattern(KEPT), colored: pattern(`${KEPT}|${COLOR}`) };

function pattern(kept: string): RegExp {
  return new RegExp(`${kept}|(${ACTING.source})`, "gu");
}

/**
 * A finished text, of many lines, in which nothing acts: the last look before it goes out, for what no renderer has seen.
 *
 * @param color whether the text may carry colors (SGR, ECMA-48)
 */
export function harmlessText(text: string, { color }: { readonly color: boolean }): string {
  return text.replace(color ? FINISHED.colored : FINISHED.plain, (all, acting: string | undefined) =>
    acting === undefined ? all : harmless(acting),
  );
}

/** The lines of a remark that a person wrote over several lines, without empty ones. */
export function linesOf(text: string): readonly string[] {
  return text
    .split(/\r\n|[\r\n\u2028\u2029]/)
    .map((line) => line.trim())
    .filter((line) => line !== "");
}
