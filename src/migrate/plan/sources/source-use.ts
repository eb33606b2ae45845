import { type ChannelLabel, type Configuration, carriedBy, type Source } from "../../../model/index.ts";
import { listedInFull } from "../../../words/index.ts";
import { channelRank } from "../order.ts";
import { channelAddress } from "./input-cables.ts";

/** How much a source is needed, and by what. */
export interface SourceUse {
  readonly weight: number;
  /** "3 presets use it and go with it; paging uses it." */
  readonly words: string;
}

/** Weights of what uses a source: an order of preference, common practice, no source. */
const WEIGHT = { paging: 1000, start: 500, nonSync: 100, preset: 10, automation: 1 } as const;

export function sourceUse(
  { presets, operation, automation }: Configuration,
  { id }: Pick<Source, "id">,
): SourceUse {
  const own = presets.filter(({ sourceId }) => sourceId === id);
  const starts = own.some((preset) => preset.id === operation.startPresetId);
  const selects = automation.filter(
    ({ action }) => action.kind === "select-source" && action.sourceId === id,
  ).length;
  const paging = operation.paging?.sourceId === id;
  const nonSync = operation.nonSync?.sourceId === id;
  const words = [
    own.length === 0
      ? "no preset uses it"
      : `${own.length === 1 ? "1 preset uses it and goes" : `${own.length} presets use it and go`} with it`,
    ...(paging ? ["paging uses it"] : []),
    ...(starts ? ["the unit starts with it"] : []),
    ...(nonSync ? ["music between shows uses it"] : []),
    ...(selects > 0 ? [`automation selects it ${selects === 1 ? "once" : `${selects} times`}`] : []),
  ];
  return {
    weight:
      own.length * WEIGHT.preset +
      selects * WEIGHT.automation +
      (paging ? WEIGHT.paging : 0) +
      (starts ? WEIGHT.start : 0) +
      (nonSync ? WEIGHT.nonSync : 0),
    words: `${words.join("; ")}.`,
  };
}

/** What is missed more than others; both sides of the room alike. An order of preference, common practice, no source. */
const CHANNEL_WEIGHT: Readonly<Partial<Record<ChannelLabel, number>>> = { C: 3, L: 3, R: 3, LFE: 2 };
/** That one more preset needs it counts more than what it plays there. */
const PRESET_WEIGHT = 10;

/** How much each source channel is needed, by its address: by how many presets play it, then by what it plays there. */
export function channelsUse({ sources, presets, channels }: Configuration): ReadonlyMap<string, number> {
  const labels = new Map(channels.map(({ id, label }) => [id, label]));
  const use = new Map<string, number>();
  for (const source of sources) {
    for (const channel of source.channels) {
      const weights = presets.flatMap(({ routing }) => {
        const played = routing
          .filter(({ sourceChannelId }) => sourceChannelId === channel.id)
          .map(({ channelId }) => CHANNEL_WEIGHT[labels.get(channelId)!] ?? 1);
        return played.length === 0 ? [] : [PRESET_WEIGHT + Math.max(...played)];
      });
      use.set(
        channelAddress(source, channel),
        weights.reduce((sum, weight) => sum + weight, 0),
      );
    }
  }
  return use;
}

/** What one preset hears no more of its source. */
export interface PresetLoss {
  readonly label: string;
  /** What is lost: what the source carries there, or else the program channels that played it. */
  readonly channels: readonly string[];
}

/** What presets lose when channels of their sources are left out; presets that lose nothing are not among them. */
export function presetLosses(
  { sources, presets, channels }: Configuration,
  gone: ReadonlySet<string>,
): readonly PresetLoss[] {
  const labels = new Map(channels.map(({ id, label }) => [id, label]));
  return presets.flatMap(({ label, routing, sourceId, format }) => {
    const source = sources.find(({ id }) => id === sourceId);
    const lost = routing
      .filter(({ sourceChannelId }) => gone.has(sourceChannelId))
      .map(({ sourceChannelId, channelId }) => {
        const channel = source?.channels.find(({ id }) => id === sourceChannelId);
        const carried = channel === undefined ? undefined : carriedBy(source!, channel, format);
        // "mono" would not say which of several; where it plays does.
        const name = carried === undefined || carried === "mono" ? labels.get(channelId)! : carried;
        return { name, rank: channelRank(labels.get(channelId)!) };
      })
      .sort((a, b) => a.rank - b.rank);
    return lost.length === 0 ? [] : [{ label, channels: [...new Set(lost.map(({ name }) => name))] }];
  });
}

/** "'Event 5.1' loses L, R and C." Presets that lose the same are named together. */
export function lossWords(losses: readonly PresetLoss[]): string {
  const groups = new Map<string, string[]>();
  for (const { label, channels } of losses) {
    const what = listedInFull(channels);
    groups.set(what, [...(groups.get(what) ?? []), `'${label}'`]);
  }
  if (groups.size === 0) return "No preset uses it.";
  return [...groups]
    .map(([what, presets]) => `${listedInFull(presets)} ${presets.length === 1 ? "loses" : "lose"} ${what}.`)
    .join(" ");
}
