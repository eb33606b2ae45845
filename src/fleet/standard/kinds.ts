import type { Action, Configuration, Trigger } from "../../model/index.ts";
import type { CompiledStandard, HeldList } from "./compile.ts";
import { ruleAt } from "./rule-at.ts";

/** What a trigger of each kind says. */
export const TRIGGER_MEMBERS: Readonly<Record<Trigger["kind"], readonly string[]>> = {
  contact: ["connectorId", "edge"],
  serial: ["connectorId", "text"],
  network: ["interfaceId", "text"],
};

const ACTION_MEMBERS: Readonly<Record<Action["kind"], readonly string[]>> = {
  "recall-preset": ["presetId"],
  mute: [],
  unmute: [],
  "set-fader": ["faderMark"],
  "select-source": ["sourceId"],
};

/** Of a member of a trigger or an action, the path of its kind; undefined for any other place. */
export function kindPathOf(path: readonly string[]): readonly string[] | undefined {
  const isMember =
    path.length === 4 && path[0] === "automation" && (path[2] === "trigger" || path[2] === "action");
  return isMember && path[3] !== "kind" ? [...path.slice(0, 3), "kind"] : undefined;
}

/** Whether a trigger or an action of this kind has such a member. */
export function hasMember(part: string, kind: unknown, member: string): boolean {
  const members: Readonly<Record<string, readonly string[]>> =
    part === "trigger" ? TRIGGER_MEMBERS : ACTION_MEMBERS;
  return members[String(kind)]?.includes(member) ?? true;
}

/** No connector has this id: fitting finds the trigger one of its kind. */
const NO_CONNECTOR = "standard";

/** A copy of a configuration that is being edited. */
// biome-ignore lint/suspicious/noExplicitAny: members of one kind give way to those of another
type Draft = any;

/**
 * Where an automation item has become another kind of trigger or action, what only the old kind says goes with it, and the
 * connector or interface is the one that the standard names.
 *
 * @param draft is changed
 */
export function settleKinds(draft: Configuration, before: Configuration, standard: CompiledStandard): void {
  const had = new Map(before.automation.map((item) => [item.id, item]));
  for (const item of draft.automation as readonly Draft[]) {
    const was = had.get(item.id);
    if (was === undefined) continue;
    if (item.action.kind !== was.action.kind)
      item.action = onlyMembers(item.action, ACTION_MEMBERS[item.action.kind as Action["kind"]]);
    if (item.trigger.kind === was.trigger.kind) continue;
    const members = TRIGGER_MEMBERS[item.trigger.kind as Trigger["kind"]];
    const named = namedTrigger(standard, item.id);
    const own = named?.kind === item.trigger.kind ? named : undefined;
    const { kind, edge, text } = item.trigger;
    item.trigger = onlyMembers(
      { kind, edge, text, connectorId: NO_CONNECTOR, interfaceId: NO_CONNECTOR, ...whereOf(own) },
      members,
    );
  }
}

function whereOf(trigger: Partial<Record<string, unknown>> | undefined) {
  return Object.fromEntries(
    ["connectorId", "interfaceId"].flatMap((name) =>
      typeof trigger?.[name] === "string" ? [[name, trigger[name]]] : [],
    ),
  );
}

function namedTrigger(standard: CompiledStandard, id: string): Partial<Record<string, unknown>> | undefined {
  const rule = ruleAt(standard.lists, "automation", ["automation"]) as HeldList | undefined;
  if (rule === undefined || rule.hold.kind === "left-to-screen") return undefined;
  return rule.hold.items.get(id)?.trigger as Partial<Record<string, unknown>> | undefined;
}

function onlyMembers(part: Draft, members: readonly string[] | undefined): Draft {
  // A kind that nobody knows is for the schema to tell.
  if (members === undefined) return part;
  return Object.fromEntries(
    Object.entries(part).filter(
      ([name, value]) => value !== undefined && (name === "kind" || members.includes(name)),
    ),
  );
}
