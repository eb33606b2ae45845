import type { ChannelLabel, Configuration, ProgramChannel, UnitProfile } from "../../../model/index.ts";

/**
 * The channel through which a unit without a label can play it. Common practice, no source: a 5.1 unit plays side and rear
 * surrounds through its one pair, a 7.1 unit the one pair through its sides.
 */
const STAND_IN: Readonly<Partial<Record<ChannelLabel, ChannelLabel>>> = {
  Lss: "Ls",
  Lrs: "Ls",
  Rss: "Rs",
  Rrs: "Rs",
  Ls: "Lss",
  Rs: "Rss",
};

/** Program channels that the unit lacks and that go the same way. */
export interface MissingChannels {
  readonly channels: readonly ProgramChannel[];
  /** Label that can play them; undefined: there is none. */
  readonly standIn: ChannelLabel | undefined;
}

/** The channels that the unit does not have, those with one stand-in together. */
export function missingChannels(configuration: Configuration, to: UnitProfile): readonly MissingChannels[] {
  const groups = new Map<string, MissingChannels>();
  for (const channel of configuration.channels) {
    if (to.channels.labels.includes(channel.label)) continue;
    const label = STAND_IN[channel.label];
    const standIn = label !== undefined && to.channels.labels.includes(label) ? label : undefined;
    const key = standIn ?? channel.id;
    const channels = [...(groups.get(key)?.channels ?? []), channel];
    groups.set(key, { channels, standIn });
  }
  return [...groups.values()];
}
