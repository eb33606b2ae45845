import { ACTING } from "./harmless.ts";

/**
 * A value as JSON (RFC 8259) in which no character acts: those that {@link harmless} shows are written as `\uXXXX`, so a
 * reader of the JSON gets the value unchanged, and a terminal or an editor that shows the text does nothing.
 *
 * @param indent spaces for each level. @defaultValue 0: one line
 */
export function jsonText(value: unknown, indent = 0): string {
  // JSON.stringify leaves no acting character outside strings but the line ends of its indents.
  return JSON.stringify(value, null, indent).replace(ACTING, (char) =>
    char === "\n" ? char : escaped(char),
  );
}

/** Each code unit by itself, as JSON escapes characters beyond the first plane. */
function escaped(char: string): string {
  return Array.from({ length: char.length }, (_none, index) => {
    return `\\u${char.charCodeAt(index).toString(16).padStart(4, "0")}`;
  }).join("");
}
