/** An item of a keyed list of a configuration. */
export interface KeyedItem {
  readonly id?: string;
  readonly channelId?: string;
}

/**
 * The stable key of a list item: its `id`; in lists that hold one item for each program channel, the `channelId`.
 * Lists of plain numbers (graphic gains, FIR taps, third octaves) have no keys: their index means a band or a tap.
 */
export function itemKey(item: KeyedItem): string | undefined {
  return item.id ?? item.channelId;
}

/** What an item of any list is called in a place by ids: its key, or its position where it has none. */
export function itemName(item: unknown, position: number): string {
  const key = typeof item === "object" && item !== null ? itemKey(item as KeyedItem) : undefined;
  return key ?? String(position);
}

/** The position of the item that is called so; -1 where the list has none. */
export function positionIn(list: readonly unknown[], name: string): number {
  if (typeof list[0] === "object") return list.findIndex((item, index) => itemName(item, index) === name);
  const position = /^(0|[1-9]\d*)$/.test(name) ? Number(name) : -1;
  return position < list.length ? position : -1;
}
