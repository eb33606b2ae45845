import { CHANNELS, type ChannelRole, type Configuration } from "../../model/index.ts";
import { listed } from "../../words/index.ts";
import type { Subject } from "./draft.ts";

/** Several places as one name where they have one ("All screen channels"), else one after the other. */
export function collectiveWords(configuration: Configuration, subjects: readonly Subject[]): string {
  const each = [...new Set(subjects.map(({ words }) => words))];
  if (each.length === 1) return each[0]!;
  const items = subjects.flatMap(({ item }) => item ?? []);
  const of = [...new Set(items.map((item) => item.of))];
  const kind = items[0]?.kind;
  if (items.length < subjects.length || items.some((item) => item.kind !== kind)) return listed(each);
  if (of.length !== 1) return manyOf(subjects) ?? listed(each);
  const ids = new Set(items.map(({ id }) => id));
  const group = groupsOf(configuration, kind!).find((one) => one.ids.size > 1 && isSame(one.ids, ids));
  return group === undefined
    ? listed(each)
    : [group.name, of[0]].filter((part) => part !== undefined).join(", ");
}

/** One thing in several parts: "LFE: EQ set Feature, EQ set Speech and EQ set Archive". */
function manyOf(subjects: readonly Subject[]): string | undefined {
  const wholes = new Set(subjects.map(({ words, item }) => words.slice(0, -(item?.of?.length ?? 0) - 2)));
  const [whole] = wholes;
  return wholes.size === 1 && subjects.every(({ item }) => item?.of !== undefined)
    ? `${whole}: ${listed(subjects.map(({ item }) => item!.of!))}`
    : undefined;
}

interface Group {
  readonly name: string;
  readonly ids: ReadonlySet<string>;
}

function isSame(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((id) => b.has(id));
}

function groupsOf(
  configuration: Configuration,
  kind: NonNullable<Subject["item"]>["kind"],
): readonly Group[] {
  if (kind === "channel") return channelGroups(configuration);
  if (kind === "loudspeaker") return loudspeakerGroups(configuration);
  return kind === "output" ? outputGroups(configuration) : presetGroups(configuration);
}

function group<Item extends { readonly id: string }>(name: string, items: readonly Item[]): Group {
  return { name, ids: new Set(items.map(({ id }) => id)) };
}

function channelGroups({ channels }: Configuration): readonly Group[] {
  const ofRole = (...roles: readonly ChannelRole[]) =>
    channels.filter(({ label }) => roles.includes(CHANNELS[label].role));
  return [
    group("All program channels", channels),
    group("All channels of the auditorium", ofRole("screen", "lfe", "surround")),
    group("All screen channels", ofRole("screen")),
    group("All surround channels", ofRole("surround")),
  ];
}

function loudspeakerGroups({ loudspeakers }: Configuration): readonly Group[] {
  const placed = (start: string) => loudspeakers.filter(({ placement }) => placement.startsWith(start));
  return [
    group("All loudspeakers", loudspeakers),
    group("All screen loudspeakers", placed("screen-")),
    group("All surround loudspeakers", placed("surround-")),
  ];
}

function presetGroups({ presets }: Configuration): readonly Group[] {
  const formats = [...new Set(presets.map(({ format }) => format))];
  return [
    group("All presets", presets),
    ...formats.map((format) =>
      group(
        `All ${format} presets`,
        presets.filter((preset) => preset.format === format),
      ),
    ),
  ];
}

function outputGroups({ outputs, loudspeakers }: Configuration): readonly Group[] {
  const fed = outputs.flatMap(({ id, feeds }) => {
    if (feeds.kind !== "loudspeaker") return [];
    const loudspeaker = loudspeakers.find((one) => one.id === feeds.loudspeakerId);
    const way = loudspeaker?.ways.find((one) => one.id === feeds.wayId);
    return loudspeaker === undefined || way === undefined ? [] : [{ id, loudspeaker, way }];
  });
  const placed = (start: string) => fed.filter(({ loudspeaker }) => loudspeaker.placement.startsWith(start));
  const bands = [...new Set(fed.map(({ way }) => way.band))];
  return [
    group("All outputs", outputs),
    group("All loudspeakers", fed),
    group("All screen loudspeakers", placed("screen-")),
    group("All surround loudspeakers", placed("surround-")),
    group("All subwoofers", placed("subwoofer")),
    ...loudspeakers.map(({ id, label }) =>
      group(
        `${label}, all ways`,
        fed.filter(({ loudspeaker }) => loudspeaker.id === id),
      ),
    ),
    ...bands.map((band) =>
      group(
        `All ${band} ways`,
        fed.filter(({ way }) => way.band === band),
      ),
    ),
  ];
}
