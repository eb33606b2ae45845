import { harmless } from "../../base/text/index.ts";

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Plain text as the content of an element (WHATWG HTML section 13.3; XML for SVG). */
export function escaped(text: string): string {
  return harmless(text).replace(/[&<>]/g, (char) => ENTITIES[char]!);
}

/** Plain text as the value of an attribute in quotes. */
export function attribute(text: string): string {
  return harmless(text).replace(/[&<>"']/g, (char) => ENTITIES[char]!);
}

/** Plain text as a string of CSS in a style element (CSS Syntax Level 3): everything but letters and digits is escaped. */
export function cssString(text: string): string {
  return `"${harmless(text).replace(/[^A-Za-z0-9 ]/gu, (char) => `\\${char.codePointAt(0)!.toString(16)} `)}"`;
}
