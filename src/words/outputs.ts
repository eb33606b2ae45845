import type { Configuration, Feed, Loudspeaker, Output, WayBand } from "../model/index.ts";

const FEED_NAMES = {
  "hearing-impaired": "Hearing-impaired feed",
  narration: "Narration feed",
  "booth-monitor": "Booth monitor",
} as const;

/** What an output feeds: "Screen left, hf way", "Sub left, sub way", "Hearing-impaired feed", "Spare output OUT 9". */
export function outputName(
  configuration: Configuration,
  { feeds, label }: Pick<Output, "feeds" | "label">,
): string {
  if (feeds.kind === "spare") return `Spare output ${label}`;
  if (feeds.kind !== "loudspeaker") return FEED_NAMES[feeds.kind];
  const loudspeaker = configuration.loudspeakers.find((item) => item.id === feeds.loudspeakerId);
  const way = loudspeaker?.ways.find((item) => item.id === feeds.wayId);
  return `${loudspeaker?.label ?? feeds.loudspeakerId}, ${way?.band ?? feeds.wayId} way`;
}

/**
 * What an output feeds, in a plan: the way only where there are several, and spare outputs in quotes: "Screen left, hf way",
 * "Sub left", "Spare output 'OUT 9'".
 */
export function outputInPlan(
  loudspeakers: ReadonlyMap<string, Loudspeaker>,
  { feeds, label }: Pick<Output, "feeds" | "label">,
): string {
  if (feeds.kind === "spare") return `Spare output '${label}'`;
  if (feeds.kind !== "loudspeaker") return FEED_NAMES[feeds.kind];
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

const FEEDS_TO_KEY_IN = {
  "hearing-impaired": "hearing-impaired transmitter",
  narration: "narration transmitter",
  "booth-monitor": "booth monitor",
  spare: "nothing: spare",
} as const;

/** What an output feeds, on an entry sheet: a way by its id, "Screen left, way-1 way", "nothing: spare". */
export function feedToKeyIn(feed: Feed, loudspeaker: (id: string) => string): string {
  return feed.kind === "loudspeaker"
    ? `${loudspeaker(feed.loudspeakerId)}, ${feed.wayId} way`
    : FEEDS_TO_KEY_IN[feed.kind];
}
