import type { Address, Configuration, Output, PlanPlace } from "../../model/index.ts";
import { channelInPlan, outputInPlan } from "../../words/index.ts";

/** How the parts of a configuration are called, from the screen's side. */
export interface Words {
  readonly output: (output: Pick<Output, "feeds" | "label">) => string;
  readonly channel: (channelId: string) => string;
  readonly preset: (presetId: string) => string;
  readonly source: (sourceId: string) => string;
  readonly equalization: (equalizationId: string) => string;
}

export function wordsOf(configuration: Configuration): Words {
  const loudspeakers = new Map(configuration.loudspeakers.map((item) => [item.id, item]));
  const labelIn = (list: readonly { readonly id: string; readonly label: string }[]) => {
    const labels = new Map(list.map(({ id, label }) => [id, label]));
    return (id: string) => labels.get(id) ?? id;
  };
  const channels = new Map(configuration.channels.map((channel) => [channel.id, channel]));
  return {
    output: (output) => outputInPlan(loudspeakers, output),
    channel: (id) => channelInPlan(id, channels.get(id)),
    preset: labelIn(configuration.presets),
    source: labelIn(configuration.sources),
    equalization: labelIn(configuration.equalizations),
  };
}

export function place(address: Address, words: string): PlanPlace {
  return { address, words };
}
