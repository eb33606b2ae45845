import type { Configuration, FittedItem } from "../../../model/index.ts";
import type { FitContext, FitStage } from "./ask.ts";
import { itemWords, newItems, withItem } from "./new-parts.ts";

/** Of an EQ set that the standard brings, curves for program channels that the screen does not have are left out and told. */
export function withOwnChannelsOnly({ screen }: FitContext, target: Configuration): FitStage {
  const there = new Set(target.channels.map(({ id }) => id));
  let configuration = target;
  const items: FittedItem[] = [];
  for (const set of newItems(screen, target, "equalizations")) {
    const gone = set.channels.filter(({ channelId }) => !there.has(channelId));
    if (gone.length === 0) continue;
    const channels = set.channels.filter(({ channelId }) => there.has(channelId));
    configuration = withItem(configuration, "equalizations", { ...set, channels });
    const names = gone.map(({ channelId }) => channelId).join(", ");
    items.push({
      place: `equalizations/${set.id}`,
      words: itemWords("equalizations", set),
      outcome: "left-out",
      text: `Without curves for ${names}: this screen has no such program ${gone.length === 1 ? "channel" : "channels"}.`,
      numbers: { channels: gone.length },
    });
  }
  return { configuration, items, verdicts: [] };
}
