import type { AutomationItem, Configuration } from "../../../model/index.ts";
import { listedInFull } from "../../../words/index.ts";

/** The lists that a standard may add items to and a unit may have no room for. */
export const NEW_PARTS = ["sources", "equalizations", "presets", "automation"] as const;
export type HouseList = (typeof NEW_PARTS)[number];

interface Item {
  readonly id: string;
  readonly label: string;
}

/** Items of a list that the screen did not have. */
export function newItems<List extends HouseList>(
  screen: Configuration,
  target: Configuration,
  list: List,
): readonly Configuration[List][number][] {
  const before = new Set(screen[list].map(({ id }) => id));
  return (target[list] as readonly (Configuration[List][number] & Item)[]).filter(
    ({ id }) => !before.has(id),
  );
}

/** Automation items that the screen did not have, or had with another kind of trigger. */
export function newTriggers(screen: Configuration, target: Configuration): readonly AutomationItem[] {
  const before = new Map(screen.automation.map(({ id, trigger }) => [id, trigger.kind]));
  return target.automation.filter(({ id, trigger }) => before.get(id) !== trigger.kind);
}

/** A configuration without some items of a list. */
export function withoutItems(
  configuration: Configuration,
  list: HouseList,
  ids: ReadonlySet<string>,
): Configuration {
  if (ids.size === 0) return configuration;
  return {
    ...configuration,
    [list]: (configuration[list] as readonly Item[]).filter(({ id }) => !ids.has(id)),
  };
}

/** A configuration with one item of a list replaced. */
export function withItem<List extends HouseList>(
  configuration: Configuration,
  list: List,
  item: Configuration[List][number],
): Configuration {
  return {
    ...configuration,
    [list]: (configuration[list] as readonly Item[]).map((other) => (other.id === item.id ? item : other)),
  };
}

/** "Source 'Network'" */
export function itemWords(list: HouseList, { label }: Item): string {
  return `${SORT[list]} '${label}'`;
}

const SORT: Readonly<Record<HouseList, string>> = {
  sources: "Source",
  equalizations: "EQ set",
  presets: "Preset",
  automation: "Automation",
};

/** "'A', 'B' and 'C'" */
export function labelsOf(items: readonly Item[]): string {
  return listedInFull(items.map(({ label }) => `'${label}'`));
}
