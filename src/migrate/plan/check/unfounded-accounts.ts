import { type Configuration, leavesOf, type PlanItem } from "../../../model/index.ts";
import type { Plan } from "../plan.ts";

/** How many places of one kind are named. */
const NAMED_MAX = 3;

/** Lists whose items a plan carries over; it makes none up. */
const CARRIED = [
  "sources",
  "channels",
  "equalizations",
  "presets",
  "loudspeakers",
  "outputs",
  "automation",
] as const;

/**
 * Holds the accounts of a decided plan against the two documents, in words: every value of the old configuration belongs
 * to one item; what counts as kept is the same, what counts as lost as a whole is gone, nothing still waits for a decision,
 * and nothing is in the new configuration that the old one did not have. Empty: all of it holds.
 */
export function unfoundedAccounts(plan: Plan, old: Configuration): readonly string[] {
  const before = leavesOf(old);
  const after = leavesOf(plan.configuration);
  const claims = plan.items.flatMap((item) => item.claims.map((address) => ({ address, item })));
  const owners = new Map<string, number>();
  for (const { address } of claims) owners.set(address, (owners.get(address) ?? 0) + 1);
  const counted = (outcome: PlanItem["outcome"]) =>
    claims.filter(({ item }) => item.outcome === outcome).map(({ address }) => address);
  const same = (address: string) => after.get(address) === before.get(address);
  const miscounted = Object.entries(plan.counts).filter(
    ([outcome, count]) => counted(outcome as PlanItem["outcome"]).length !== count,
  );
  return [
    ...told(
      "belong to no item of the plan",
      [...before.keys()].filter((address) => !owners.has(address)),
    ),
    ...told(
      "belong to several items of the plan",
      [...owners].flatMap(([address, count]) => (count > 1 ? [address] : [])),
    ),
    ...told(
      "are not in the old configuration, though the plan accounts for them",
      [...owners.keys()].filter((address) => !before.has(address)),
    ),
    ...told(
      "count as kept and are not the same",
      counted("kept").filter((address) => !same(address)),
    ),
    ...told(
      "count as lost and are still there",
      counted("lost").filter((address) => address.endsWith("/id") && after.has(address)),
    ),
    ...told("still wait for a decision", counted("asks")),
    ...told(
      "are counted otherwise than the items say",
      miscounted.map(([outcome]) => outcome),
    ),
    ...told("are new, which no plan may bring", madeUp(old, plan.configuration)),
  ];
}

function told(words: string, places: readonly string[]): readonly string[] {
  if (places.length === 0) return [];
  const more = places.length - NAMED_MAX;
  const named = places.slice(0, NAMED_MAX).join(", ");
  return [`${named}${more > 0 ? ` and ${more} more` : ""} ${words}.`];
}

/** Items of the new configuration that have no partner in the old one. */
function madeUp(old: Configuration, now: Configuration): readonly string[] {
  return CARRIED.flatMap((list) => {
    const known = new Set(old[list].map(({ id }) => id));
    return now[list].flatMap(({ id }) => (known.has(id) ? [] : [`${list}/${id}`]));
  });
}
