import type { Plan } from "../../../migrate/plan/index.ts";
import type {
  AutomationItem,
  Configuration,
  FittedItem,
  PlanItem,
  PlugPlace,
  Source,
} from "../../../model/index.ts";
import { NEW_PARTS, newItems, newTriggers } from "./new-parts.ts";
import { ofThisUnit } from "./plan-questions.ts";

const OUTCOMES = {
  rounded: "rounded",
  refitted: "refitted",
  moved: "moved",
  restaged: "moved",
  asks: "asks",
  lost: "left-out",
} as const;

/** What the plan made of new items. What became of the stand-ins around them is nobody's business. */
export function fittedItems(screen: Configuration, target: Configuration, plan: Plan): readonly FittedItem[] {
  const added = [
    ...NEW_PARTS.flatMap((list) => newItems(screen, target, list).map(({ id }) => `${list}/${id}`)),
    ...newTriggers(screen, target).map(({ id }) => `automation/${id}`),
  ];
  const isNew = (address: string) => added.some((at) => address === at || address.startsWith(`${at}/`));
  // Where it is plugged stands in one line a source, not in one a channel.
  const told = ({ place, outcome }: PlanItem) =>
    outcome !== "kept" && isNew(place.address) && !/\/connectorId$|\/terminal$/.test(place.address);
  return [
    ...plan.items.filter(told).map(
      ({ place, outcome, words, numbers }): FittedItem => ({
        place: place.address,
        words: place.words,
        outcome: OUTCOMES[outcome as keyof typeof OUTCOMES],
        text: ofThisUnit(words),
        numbers: numbers as FittedItem["numbers"],
      }),
    ),
    ...cableItems(screen, plan),
  ];
}

/** Where the cables of new sources and the wires of new automation go. */
function cableItems(screen: Configuration, { configuration, cables }: Plan): readonly FittedItem[] {
  const plugs = new Map(cables.flatMap(({ to }) => to.map((plug) => [plug.connectorId, plug] as const)));
  const words = (ids: readonly string[]) => plugRange([...new Set(ids)].flatMap((id) => plugs.get(id) ?? []));
  const sources = newItems(screen, configuration, "sources").map((source: Source): FittedItem => {
    const at = words(source.channels.map(({ connectorId }) => connectorId));
    return cableItem(
      `sources/${source.id}`,
      `Source '${source.label}'`,
      `Plug '${source.label}' into ${at}.`,
    );
  });
  const automation = newTriggers(screen, configuration).flatMap(
    ({ id, label, trigger }: AutomationItem): readonly FittedItem[] => {
      if (!("connectorId" in trigger)) return [];
      const at = words([trigger.connectorId]);
      return [cableItem(`automation/${id}`, `Automation '${label}'`, `Wire '${label}' to ${at}.`)];
    },
  );
  return [...sources, ...automation];
}

function cableItem(place: string, words: string, todo: string): FittedItem {
  return { place, words, outcome: "moved", text: todo, numbers: {}, todo };
}

function plugRange(plugs: readonly PlugPlace[]): string {
  const name = ({ group, label }: PlugPlace) => (group === label ? label : `${group}, ${label}`);
  if (plugs.length === 0) return "an input of your choice";
  const first = name(plugs[0]!);
  return plugs.length === 1 ? first : `${first} to ${name(plugs.at(-1)!)}`;
}
