import type { Configuration, Preset } from "../../model/index.ts";
import { channelName, outputName, sourceChannelName } from "../../words/index.ts";

/** What a preset plays where: by what an output feeds, the source channels that arrive there. */
export type Reach = ReadonlyMap<string, ReadonlySet<string>>;

/** Names of the places that fall silent, get sound that had none, or get more signals than before. */
export interface ReachChange {
  readonly silent: readonly string[];
  readonly added: readonly string[];
  readonly doubled: readonly string[];
}

/** Which source channels arrive at which loudspeaker (or feed) in a preset. Muted channels and outputs do not play. */
export function reachOf(configuration: Configuration, preset: Preset | undefined): Reach {
  const reach = new Map<string, Set<string>>();
  const muted = new Set(configuration.channels.filter(({ mute }) => mute).map(({ id }) => id));
  for (const { sourceChannelId, channelId } of preset?.routing ?? []) {
    if (muted.has(channelId)) continue;
    for (const output of configuration.outputs) {
      if (output.mute || !output.mix.some((part) => part.channelId === channelId)) continue;
      const name = placeFed(configuration, output);
      reach.set(name, (reach.get(name) ?? new Set()).add(sourceChannelId));
    }
  }
  return reach;
}

/** The loudspeaker as a whole, or the feed. */
function placeFed(configuration: Configuration, output: Configuration["outputs"][number]): string {
  const { feeds } = output;
  if (feeds.kind !== "loudspeaker") return outputName(configuration, output);
  return (
    configuration.loudspeakers.find(({ id }) => id === feeds.loudspeakerId)?.label ?? feeds.loudspeakerId
  );
}

export function reachChange(before: Reach, after: Reach): ReachChange {
  const names = [...new Set([...before.keys(), ...after.keys()])];
  const count = (reach: Reach, name: string): number => reach.get(name)?.size ?? 0;
  return {
    silent: names.filter((name) => count(before, name) > 0 && count(after, name) === 0),
    added: names.filter((name) => count(before, name) === 0 && count(after, name) > 0),
    doubled: names.filter((name) => count(before, name) > 0 && count(after, name) > count(before, name)),
  };
}

/** "Server 5 to Left Side Surround" */
export function crossingName(
  configuration: Configuration,
  { sourceChannelId, channelId }: Preset["routing"][number],
): string {
  return `${sourceChannelName(configuration, sourceChannelId)} to ${channelName(configuration, channelId)}`;
}
