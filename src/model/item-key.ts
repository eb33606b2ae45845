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
