import { type JsonObject, type Trigger, triggerKey } from "../../model/index.ts";
import { triggerByIds } from "../../words/index.ts";
import type { CompiledStandard, HeldLeaf, HeldList } from "./compile.ts";
import { TRIGGER_MEMBERS } from "./kinds.ts";
import { ruleAt } from "./rule-at.ts";
import { badLine } from "./standard-errors.ts";

/**
 * Refuses a standard in which two automation items wait for the same trigger. Where connector or interface are left to the
 * screen, only the screen can tell.
 *
 * @throws BoothkeepError standard.bad-line
 */
export function checkTriggers(standard: CompiledStandard): void {
  const rule = ruleAt(standard.lists, "automation", ["automation"]) as HeldList | undefined;
  if (rule === undefined || rule.hold.kind === "left-to-screen") return;
  const seen = new Map<string, string>();
  for (const [id, item] of rule.hold.items) {
    const trigger = triggerOf(standard, id, item);
    if (trigger === undefined) continue;
    const key = triggerKey(trigger);
    const other = seen.get(key);
    if (other !== undefined) {
      throw badLine(
        rule.line,
        `'${other}' and '${id}' wait for the same trigger: ${triggerByIds(trigger)}.`,
        "Give one of them another trigger, or leave one out.",
      );
    }
    seen.set(key, id);
  }
}

/** What the standard says of a trigger, all its lines taken together; undefined where it does not say all of it. */
function triggerOf(standard: CompiledStandard, id: string, item: JsonObject): Trigger | undefined {
  const held = (name: string) => {
    const rule = ruleAt(standard.leaves, `automation[].trigger.${name}`, [
      "automation",
      id,
      "trigger",
      name,
    ]) as HeldLeaf | undefined;
    return rule?.hold.kind === "exactly" ? rule.hold.value : undefined;
  };
  const own = item.trigger as JsonObject | undefined;
  const trigger = {
    kind: held("kind"),
    connectorId: own?.connectorId,
    interfaceId: own?.interfaceId,
    edge: held("edge"),
    text: held("text"),
  };
  return isTrigger(trigger) ? trigger : undefined;
}

function isTrigger(trigger: { readonly [member in "kind" | "text"]?: unknown }): trigger is Trigger {
  const said: Readonly<Record<string, unknown>> = trigger;
  return TRIGGER_MEMBERS[said.kind as Trigger["kind"]]?.every((part) => typeof said[part] === "string");
}
