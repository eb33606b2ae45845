import type {
  Address,
  Configuration,
  Feed,
  Loudspeaker,
  Output,
  PlanPlace,
  ProgramChannel,
  WayBand,
} from "../../model/index.ts";

/** How the parts of a configuration are called, from the screen's side. */
export interface Words {
  readonly output: (output: Pick<Output, "feeds" | "label">) => string;
  readonly channel: (channelId: string) => string;
  readonly preset: (presetId: string) => string;
  readonly source: (sourceId: string) => string;
  readonly equalization: (equalizationId: string) => string;
}

const FEED_WORDS = {
  "hearing-impaired": "Hearing-impaired feed",
  narration: "Narration feed",
  "booth-monitor": "Booth monitor",
} as const;

export function wordsOf(configuration: Configuration): Words {
  const loudspeakers = new Map(configuration.loudspeakers.map((item) => [item.id, item]));
  const labelIn = (list: readonly { readonly id: string; readonly label: string }[]) => {
    const labels = new Map(list.map(({ id, label }) => [id, label]));
    return (id: string) => labels.get(id) ?? id;
  };
  const channels = new Map(configuration.channels.map((channel) => [channel.id, channel]));
  return {
    output: ({ feeds, label }) => feedWords(feeds, label, loudspeakers),
    channel: (id) => channelWords(id, channels.get(id)),
    preset: labelIn(configuration.presets),
    source: labelIn(configuration.sources),
    equalization: labelIn(configuration.equalizations),
  };
}

function feedWords(feeds: Feed, label: string, loudspeakers: ReadonlyMap<string, Loudspeaker>): string {
  if (feeds.kind === "spare") return `Spare output '${label}'`;
  if (feeds.kind !== "loudspeaker") return FEED_WORDS[feeds.kind];
  const loudspeaker = loudspeakers.get(feeds.loudspeakerId);
  if (loudspeaker === undefined) return label;
  if (loudspeaker.ways.length < 2) return loudspeaker.label;
  const band = loudspeaker.ways.find(({ id }) => id === feeds.wayId)?.band;
  return `${loudspeaker.label}, ${band === undefined ? feeds.wayId : bandWords(band)}`;
}

/** "hf way". */
export function bandWords(band: WayBand): string {
  return `${band} way`;
}

function channelWords(id: string, channel: ProgramChannel | undefined): string {
  return `channel ${channel?.label ?? id}`;
}

export function place(address: Address, words: string): PlanPlace {
  return { address, words };
}
