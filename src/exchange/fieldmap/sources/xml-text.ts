import type { Leaf } from "../tree.ts";

/** A character that no XML text may hold. */
export const NOT_CHAR = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u;

/** XML 1.0, 2.11: every line end reads as a line feed. */
export const lineEnds = (text: string): string => text.replace(/\r\n?/g, "\n");

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ["lt", "<"],
  ["gt", ">"],
  ["amp", "&"],
  ["quot", '"'],
  ["apos", "'"],
]);

/** The character of an entity of XML itself or of a character reference; undefined for any other. */
export function entity(name: string): string | undefined {
  const number = /^#(?:x([0-9a-fA-F]{1,6})|([0-9]{1,7}))$/.exec(name);
  if (number === null) return ENTITIES.get(name);
  const code = number[1] === undefined ? Number(number[2]) : Number.parseInt(number[1], 16);
  if (code > 0x10ffff) return undefined;
  const char = String.fromCodePoint(code);
  return NOT_CHAR.test(char) ? undefined : char;
}

const escaped = (raw: string): string =>
  raw.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");

const attribute = (raw: string): string => escaped(raw).replace(/[\t\n\r]/g, (c) => `&#${c.charCodeAt(0)};`);

/** Text for a value in the place of a leaf; undefined for characters that XML has no place for. */
export function writeXml(
  { style, pointer }: Pick<Leaf, "style" | "pointer">,
  raw: string,
): string | undefined {
  if (NOT_CHAR.test(raw)) return undefined;
  switch (style) {
    case "xml-attribute":
      return `"${attribute(raw).replaceAll('"', "&quot;")}"`;
    case "xml-attribute-single":
      return `'${attribute(raw).replaceAll("'", "&apos;")}'`;
    case "xml-cdata":
      return raw.includes("]]>") ? undefined : `<![CDATA[${raw}]]>`;
    case "xml-empty": {
      const name = pointer.split("/").findLast((part) => !/^\d+$/.test(part))!;
      return raw === "" ? "/>" : `>${escaped(raw)}</${name.replaceAll("~1", "/").replaceAll("~0", "~")}>`;
    }
    default:
      return escaped(raw).replaceAll("\r", "&#13;");
  }
}
