import type { ItemCopy, StructuralChange } from "../structural-change.ts";
import { type TextEdit, withValues } from "../text-edit.ts";
import type { ExportTree, Leaf, LeafStyle } from "../tree.ts";
import { type NewMember, treeOfPlaces } from "./new-places.ts";
import { NOT_CHAR, writeXml } from "./xml-text.ts";

/** An element: from its "<" to behind its last ">". */
export interface XmlElement {
  readonly pointer: string;
  readonly name: string;
  readonly start: number;
  end: number;
  /** Behind the last attribute, or the name. */
  attributesEnd: number;
  /** What is between the tags; undefined for an element that its own tag closes. */
  content: { readonly start: number; end: number } | undefined;
  readonly children: XmlElement[];
  readonly around: XmlElement | undefined;
}

export interface XmlDocument {
  readonly text: string;
  readonly leaves: ReadonlyMap<string, Leaf>;
  /** By pointer. */
  readonly elements: ReadonlyMap<string, XmlElement>;
  readonly write: ExportTree["write"];
}

/** Edits that add and take away elements and attributes, on lines and with indentation like their neighbours. */
export function restructureXml(
  changes: readonly StructuralChange[],
  document: XmlDocument,
): readonly TextEdit[] | undefined {
  const edits: TextEdit[] = [];
  const inside = new Map<XmlElement, string[]>();
  const putInside = (element: XmlElement, text: string) =>
    inside.set(element, [...(inside.get(element) ?? []), text]);
  for (const change of changes) {
    if (change.kind === "set") continue;
    const edit = change.kind === "remove" ? removal(change.pointer, document) : copy(change, document);
    if (edit === undefined) return undefined;
    if ("inside" in edit) putInside(edit.inside, edit.text);
    else edits.push(edit);
  }
  const places = changes.filter((change) => change.kind === "set");
  if (places.some(({ raw }) => NOT_CHAR.test(raw))) return undefined;
  for (const [pointer, members] of treeOfPlaces(places, (at) => document.elements.has(at))) {
    const element = document.elements.get(pointer)!;
    const attributes = members.filter(({ name }) => name.startsWith("@"));
    const { attributesEnd: at } = element;
    if (attributes.length > 0)
      edits.push({ start: at, end: at, text: attributes.map(attributeText).join("") });
    const lead = leadInside(element, document);
    for (const member of members.filter((m) => !attributes.includes(m))) {
      putInside(
        element,
        member.name === "#text" ? written(member.place!.raw, "xml-text") : lead + elementText(member),
      );
    }
  }
  for (const [element, texts] of inside) edits.push(insideEdit(element, texts.join(""), document));
  return edits;
}

function removal(pointer: string, { text, leaves, elements }: XmlDocument): TextEdit | undefined {
  const element = elements.get(pointer);
  if (element !== undefined)
    return { start: element.start - leadOf(element, text).length, end: element.end, text: "" };
  const leaf = leaves.get(pointer);
  if (leaf === undefined) return undefined;
  if (!leaf.style.startsWith("xml-attribute")) return { start: leaf.start, end: leaf.end, text: "" };
  const start = /\s*[^\s=]+\s*=\s*$/.exec(text.slice(0, leaf.start).slice(-400))?.[0].length ?? 0;
  return { start: leaf.start - start, end: leaf.end, text: "" };
}

/** White space ahead of an element, back to what is there before it. */
function leadOf({ start }: XmlElement, text: string): string {
  let at = start;
  while (at > 0 && /\s/.test(text[at - 1]!)) at -= 1;
  return text.slice(at, start);
}

function copy(
  change: ItemCopy,
  document: XmlDocument,
): TextEdit | { readonly inside: XmlElement; readonly text: string } | undefined {
  const { text, leaves, elements, write } = document;
  const template = elements.get(change.template);
  const isNamed = change.name !== undefined;
  if (template?.around === undefined || isNamed === /\/\d+$/.test(change.template)) return undefined;
  const under = [...leaves.values()].filter(
    ({ pointer }) => pointer === change.template || pointer.startsWith(`${change.template}/`),
  );
  const own = withValues(text, template, under, change.raws, write);
  const copied = own === undefined || !isNamed ? own : renamed(own, template.name, change.name!);
  if (copied === undefined) return undefined;
  const lead = leadOf(template, text);
  const after = elements.get(change.after ?? "");
  if (after !== undefined) return { start: after.end, end: after.end, text: lead + copied };
  const before = elements.get(change.before ?? "");
  if (before !== undefined) return { start: before.start, end: before.start, text: copied + lead };
  const parent = elements.get(
    isNamed ? change.parent : change.parent.slice(0, change.parent.lastIndexOf("/")),
  );
  if (parent === undefined) return undefined;
  const neighbour = lastOfThoseBefore(template, parent);
  if (neighbour === undefined) return { inside: parent, text: lead + copied };
  return { start: neighbour.end, end: neighbour.end, text: lead + copied };
}

/** An element under another name; undefined for what is none (XML 1.0, 2.3, as far as keys go). */
function renamed(element: string, from: string, to: string): string | undefined {
  if (!/^[A-Za-z_][\w.-]*$/.test(to)) return undefined;
  const inside = element.slice(1 + from.length);
  const end = `</${from}`;
  const at = inside.lastIndexOf(end);
  if (at < 0) return `<${to}${inside}`;
  return `<${to}${inside.slice(0, at)}</${to}${inside.slice(at + end.length)}`;
}

/** Where the first element of its name goes: behind the elements that stand ahead of such ones elsewhere. */
function lastOfThoseBefore(template: XmlElement, parent: XmlElement): XmlElement | undefined {
  const siblings = template.around!.children;
  const ahead = new Set(siblings.slice(0, siblings.indexOf(template)).map(({ name }) => name));
  ahead.delete(template.name);
  return parent.children.findLast(({ name }) => ahead.has(name));
}

/** White space ahead of a child that is put into an element. */
function leadInside(element: XmlElement, { text }: XmlDocument): string {
  const child = element.children.at(-1);
  if (child !== undefined) return leadOf(child, text);
  const own = leadOf(element, text);
  const unit = element.around === undefined ? " " : own.slice(leadOf(element.around, text).length) || " ";
  return own.includes("\n") ? own + unit : "";
}

/** Puts text ahead of the end tag; an element without content gets an end tag. */
function insideEdit(element: XmlElement, text: string, { text: whole }: XmlDocument): TextEdit {
  const { content, name, end, children } = element;
  const own = leadOf(element, whole);
  const tail = text.startsWith("\n") || text.startsWith("\r") ? own : "";
  if (content === undefined) return { start: end - 2, end, text: `>${text}${tail}</${name}>` };
  const last = children.at(-1);
  if (last !== undefined) return { start: last.end, end: last.end, text };
  const isBlank = whole.slice(content.start, content.end).trim() === "";
  const start = isBlank ? content.start : content.end;
  return { start, end: content.end, text: `${text}${tail}` };
}

function attributeText({ name, place }: NewMember): string {
  return ` ${name.slice(1)}=${written(place!.raw, "xml-attribute")}`;
}

function elementText({ name, place, members }: NewMember): string {
  if (place !== undefined) return `<${name}>${written(place.raw, "xml-text")}</${name}>`;
  const attributes = members.filter((member) => member.name.startsWith("@"));
  const inner = members.filter((member) => !attributes.includes(member));
  const tag = `${name}${attributes.map(attributeText).join("")}`;
  if (inner.length === 0) return `<${tag}/>`;
  const content = inner.map((member) =>
    member.name === "#text" ? written(member.place!.raw, "xml-text") : elementText(member),
  );
  return `<${tag}>${content.join("")}</${name}>`;
}

function written(raw: string, style: LeafStyle): string {
  return writeXml({ style, pointer: "" }, raw) ?? "";
}
