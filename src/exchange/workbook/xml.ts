import { XMLParser, XMLValidator } from "fast-xml-parser";
import { notReadable, SAVE_AGAIN } from "./refusals.ts";

/** An element: attributes begin with "@", its text stands in "#text"; every child stands in a list. */
export interface XmlElement {
  readonly [name: string]: string | readonly (XmlElement | string)[] | undefined;
}

const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: "@",
  removeNSPrefix: true,
  parseTagValue: false,
  parseAttributeValue: false,
  trimValues: false,
  ignoreDeclaration: true,
  ignorePiTags: true,
  // Character references such as "&#10;".
  htmlEntities: true,
  isArray: (_name, _path, _isLeaf, isAttribute) => !isAttribute,
});

/** The root element of a part that is well-formed XML. */
export function rootOf(part: string, xml: string, name: string): XmlElement {
  const verdict = XMLValidator.validate(xml);
  const root = verdict === true ? (parser.parse(xml) as XmlElement)[name]?.[0] : undefined;
  if (typeof root === "object") return root;
  if (root === "") return {};
  throw notReadable(`'${part}' in the workbook is damaged.`, SAVE_AGAIN, { part });
}

/** The child elements of a name. */
export function children(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  const found = element?.[name];
  if (found === undefined || typeof found === "string") return [];
  return found.map((child) => (typeof child === "string" ? { "#text": child } : child));
}

export function attribute(element: XmlElement | undefined, name: string): string | undefined {
  const found = element?.[`@${name}`];
  return typeof found === "string" ? found : undefined;
}

/** The text directly in an element. */
export function textIn(element: XmlElement | undefined): string {
  const found = element?.["#text"];
  if (found === undefined) return "";
  return typeof found === "string"
    ? found
    : found.map((part) => (typeof part === "string" ? part : "")).join("");
}
