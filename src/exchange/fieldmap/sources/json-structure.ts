import type { ItemCopy, NewPlace, StructuralChange } from "../structural-change.ts";
import { type TextEdit, withValues } from "../text-edit.ts";
import type { ExportTree, Leaf } from "../tree.ts";
import { JsonNothing } from "./json-nothing.ts";
import { type NewMember, treeOfPlaces } from "./new-places.ts";

/** A member of an object, from its name on, or of a list. */
export interface JsonMember {
  readonly pointer: string;
  readonly start: number;
  readonly end: number;
}

/** An object or a list: the offsets between its brackets, and its members. */
export interface JsonContainer {
  readonly kind: "object" | "list";
  readonly open: number;
  close: number;
  readonly members: readonly JsonMember[];
}

export interface JsonDocument {
  readonly text: string;
  readonly leaves: ReadonlyMap<string, Leaf>;
  readonly containers: ReadonlyMap<string, JsonContainer>;
  readonly write: ExportTree["write"];
}

/** Edits that add and take away members, each with the comma and the indentation of its neighbours. */
export function restructureJson(
  changes: readonly StructuralChange[],
  document: JsonDocument,
): readonly TextEdit[] | undefined {
  const nothing = new JsonNothing(document.leaves);
  const edits: TextEdit[] = [];
  const plans = new Map<string, ContainerPlan>();
  const planOf = (pointer: string) => {
    const known = plans.get(pointer) ?? { gone: new Set(), added: [] };
    plans.set(pointer, known);
    return known;
  };
  for (const change of changes) {
    if (change.kind === "remove") {
      const group = document.containers.get(change.pointer);
      if (group === undefined || !nothing.isNullElsewhere(change.pointer))
        planOf(parentOf(change.pointer)).gone.add(change.pointer);
      else edits.push({ start: group.open - 1, end: group.close + 1, text: "null" });
    }
    if (change.kind !== "copy") continue;
    const text = copyText(change, document);
    if (text === undefined || !document.containers.has(change.parent)) return undefined;
    const template = parentOf(change.template);
    planOf(change.parent).added.push({ text, after: change.after, before: change.before, template });
  }
  const filled = nothing.filled(
    changes.filter((change) => change.kind === "set"),
    valueText,
    commaOnOneLine(document),
  );
  if (filled === undefined) return undefined;
  for (const [pointer, texts] of newMembers(filled.others, document)) {
    for (const text of texts)
      planOf(pointer).added.push({ text, after: undefined, before: undefined, template: pointer });
  }
  edits.push(...filled.edits);
  for (const [pointer, plan] of plans) {
    const container = document.containers.get(pointer);
    if (container === undefined) return undefined;
    const isEmptied = plan.added.length === 0 && container.members.every((own) => plan.gone.has(own.pointer));
    if (isEmptied && nothing.isNullElsewhere(pointer)) {
      edits.push({ start: container.open - 1, end: container.close + 1, text: "null" });
      continue;
    }
    edits.push(...containerEdits(container, plan, document));
  }
  return edits;
}

interface Addition {
  readonly text: string;
  readonly after: string | undefined;
  readonly before: string | undefined;
  /** The container whose spacing is taken where this one has no members yet. */
  readonly template: string;
}

interface ContainerPlan {
  readonly gone: Set<string>;
  readonly added: Addition[];
}

function copyText(
  { template, parent, name, raws }: ItemCopy,
  { text, leaves, containers, write }: JsonDocument,
): string | undefined {
  const member = memberAt(template, containers);
  if (member === undefined) return undefined;
  const under = [...leaves.values()].filter(
    ({ pointer }) => pointer === template || pointer.startsWith(`${template}/`),
  );
  const copy = withValues(text, member, under, raws, write);
  if (copy === undefined || containers.get(parent)?.kind !== "object") return copy;
  return name === undefined ? undefined : copy.replace(/^"(?:[^"\\]|\\.)*"/, () => JSON.stringify(name));
}

function memberAt(pointer: string, containers: ReadonlyMap<string, JsonContainer>): JsonMember | undefined {
  return containers.get(parentOf(pointer))?.members.find((member) => member.pointer === pointer);
}

/** The text between two members is written anew where something comes or goes there; members are not touched. */
function containerEdits(
  container: JsonContainer,
  plan: ContainerPlan,
  { text, containers }: JsonDocument,
): readonly TextEdit[] {
  const { members, open, close } = container;
  const like = members.length > 0 ? container : (containers.get(plan.added[0]?.template ?? "") ?? container);
  const spacing = spacingOf(like, { text, containers });
  const edits: TextEdit[] = [];
  let from = open;
  let pending = "";
  let count = 0;
  let before: JsonMember | undefined;
  for (const part of sequenceOf(members, plan)) {
    const lead = count === 0 ? spacing.first : spacing.between;
    count += 1;
    if (typeof part === "string") {
      pending += lead + part;
      continue;
    }
    const follows = before === members[members.indexOf(part) - 1];
    if (pending !== "" || !follows) edits.push({ start: from, end: part.start, text: pending + lead });
    pending = "";
    from = part.end;
    before = part;
  }
  if (pending !== "" || before !== members.at(-1)) {
    edits.push({ start: from, end: close, text: pending + (count === 0 ? "" : spacing.last) });
  }
  return edits;
}

/** The members that stay and the texts that come, in their order. */
function sequenceOf(
  members: readonly JsonMember[],
  { gone, added }: ContainerPlan,
): readonly (JsonMember | string)[] {
  const behind = new Map<string | undefined, string[]>();
  for (const addition of added) {
    const place = memberBefore(addition, members);
    behind.set(place, [...(behind.get(place) ?? []), addition.text]);
  }
  return [
    ...(behind.get(undefined) ?? []),
    ...members.flatMap((member) => [
      ...(gone.has(member.pointer) ? [] : [member]),
      ...(behind.get(member.pointer) ?? []),
    ]),
  ];
}

/** The member behind which an addition stands; undefined: ahead of all. */
function memberBefore({ after, before }: Addition, members: readonly JsonMember[]): string | undefined {
  if (after !== undefined) return after;
  const next = before === undefined ? -1 : members.findIndex(({ pointer }) => pointer === before);
  return members[next < 0 ? members.length - 1 : next - 1]?.pointer;
}

function spacingOf(
  { members, open, close }: JsonContainer,
  document: Pick<JsonDocument, "text" | "containers">,
) {
  const { text } = document;
  const [one, two] = members;
  const first = one === undefined ? "" : text.slice(open, one.start);
  const comma = first.includes("\n") ? `,${first}` : commaOnOneLine(document);
  const between = one === undefined || two === undefined ? comma : text.slice(one.end, two.start);
  const last = one === undefined ? "" : text.slice(members.at(-1)!.end, close);
  return { first, between, last };
}

/** The comma between two members on one line, as the document has it elsewhere. */
function commaOnOneLine({ text, containers }: Pick<JsonDocument, "text" | "containers">): string {
  for (const { members } of containers.values()) {
    const [one, two] = members;
    if (one === undefined || two === undefined) continue;
    const comma = text.slice(one.end, two.start);
    if (!/[\r\n]/.test(comma)) return comma;
  }
  return /[\r\n]/.test(text.trim()) ? ", " : ",";
}

/** Texts of members that places without a value need, by the object in which they are put. */
function newMembers(
  places: readonly NewPlace[],
  document: JsonDocument,
): ReadonlyMap<string, readonly string[]> {
  const { text, containers } = document;
  const found = new Map<string, string[]>();
  const colon = /^\s*"(?:[^"\\]|\\.)*"(\s*:\s*)/.exec(text.slice(text.indexOf('"')))?.[1] ?? ": ";
  const objects = new Set([...containers].filter(([, { kind }]) => kind === "object").map(([at]) => at));
  for (const [pointer, members] of treeOfPlaces(places, (at) => objects.has(at))) {
    const container = containers.get(pointer)!;
    const { first, last } = spacingOf(container, document);
    const unit = first.includes("\n") ? first.slice(Math.max(0, last.length)) : "";
    const texts = members.map((member) => memberText(member, first, unit, colon));
    found.set(pointer, texts);
  }
  return found;
}

function memberText(member: NewMember, lead: string, unit: string, colon: string): string {
  const name = JSON.stringify(member.name) + colon;
  if (member.place !== undefined) return name + valueText(member.place);
  const inner = lead.includes("\n") ? lead + unit : "";
  const parts = member.members.map((part) => memberText(part, inner, unit, colon));
  return `${name}{${inner}${parts.join(`,${inner || " "}`)}${lead.includes("\n") ? lead : ""}}`;
}

const LITERAL = /^(?:-?(?:0|[1-9]\d*)(?:\.\d+)?|true|false|null)$/;

function valueText({ raw, bare }: NewPlace): string {
  return bare && LITERAL.test(raw) ? raw : JSON.stringify(raw);
}

function parentOf(pointer: string): string {
  return pointer.slice(0, Math.max(0, pointer.lastIndexOf("/")));
}
