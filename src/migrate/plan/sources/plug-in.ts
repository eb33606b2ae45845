import type { Cable, Configuration, Source, SourceChannel } from "../../../model/index.ts";
import { assignCables, type PlacedCable } from "../cables/assign-cables.ts";
import { plugWords, socketsOf } from "../cables/socket.ts";
import { ask, outcomeOf, type Part, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";
import { channelAddress, inputCable, inputCables } from "./input-cables.ts";
import { afterRoomVerdict, roomQuestion } from "./room-question.ts";
import { servedFirst } from "./served-first.ts";
import { lostChannel, lostSource, withoutSourceChannels } from "./within-limits.ts";

interface PluggedPart extends Part {
  readonly cables: readonly Cable[];
}

/** Plugs every cable in; a source that finds no room is asked about, and then the rest is plugged once more. */
export function plugIn(context: StepContext): PluggedPart {
  const { next, to, decisions } = context;
  const wishes = decisions?.connectors ?? [];
  const sockets = socketsOf(to);
  const cables = inputCables(next, context);
  const first = assignCables({ cables: servedFirst(next, cables, sockets), sockets, wishes });
  const needed = new Set(cables.filter(({ required }) => required).flatMap(({ items }) => items));
  const homeless = new Set(
    first
      .filter(({ socket }) => socket === undefined)
      .flatMap(({ cable }) => (cable.items.some((item) => needed.has(item)) ? cable.items : [])),
  );
  const troubled = next.sources.filter((source) =>
    source.channels.some((channel) => homeless.has(channelAddress(source, channel))),
  );
  const verdicts = troubled.map((source) => ({
    source,
    verdict: ask(context, roomQuestion(context, source, homeless)),
  }));
  const changed = verdicts.reduce(
    (state, { source, verdict }) => afterRoomVerdict(state, source, verdict),
    next,
  );
  const placed =
    troubled.length === 0
      ? first
      : assignCables({
          cables: servedFirst(changed, inputCables(changed, context), sockets),
          sockets,
          wishes,
        });
  const settled = settle(context, changed, placed);
  return {
    next: settled.next,
    items: [
      ...verdicts
        .filter(({ verdict }) => verdict.option.id === "leave-out")
        .map(({ source, verdict }) => lostSource(source, "The new unit has no room for it", verdict)),
      ...settled.items(new Map(verdicts.map(({ source, verdict }) => [source.id, verdict]))),
    ],
    questions: verdicts.map(({ verdict }) => verdict.question),
    cables: settled.cables,
  };
}

/** Writes the connectors found into the sources. */
function settle(context: StepContext, configuration: Configuration, placed: readonly PlacedCable[]) {
  const found = new Map<string, { readonly placed: PlacedCable; readonly connectorId: string | undefined }>();
  const lineChannels = new Map(context.from.connectors.map(({ id, lineChannel }) => [id, lineChannel ?? 0]));
  for (const source of configuration.sources) {
    for (const channel of source.channels) {
      const address = channelAddress(source, channel);
      const cable = placed.find((item) => item.cable.items.includes(address))!;
      const connector = cable.socket?.connectors.find(
        ({ lineChannel }) => (lineChannel ?? 0) === lineChannels.get(channel.connectorId),
      );
      found.set(address, { placed: cable, connectorId: connector?.id });
    }
  }
  const unplugged = new Set(
    configuration.sources.flatMap((source) =>
      source.channels
        .filter((channel) => found.get(channelAddress(source, channel))!.connectorId === undefined)
        .map(({ id }) => id),
    ),
  );
  const plugged: Configuration = {
    ...configuration,
    sources: configuration.sources.map((source) => ({
      ...source,
      channels: source.channels.map((channel) => ({
        ...channel,
        connectorId: found.get(channelAddress(source, channel))!.connectorId ?? channel.connectorId,
      })),
    })),
  };
  return {
    next: withoutSourceChannels(plugged, unplugged),
    items: (verdicts: ReadonlyMap<string, Verdict>): readonly StepItem[] =>
      configuration.sources.flatMap((source) => [
        ...keptSource(context.old, source, unplugged, verdicts.get(source.id)),
        ...source.channels.map((channel) =>
          unplugged.has(channel.id)
            ? lostChannel(configuration, {
                source,
                channel,
                verdict: verdictFor(context, verdicts, source, channel),
              })
            : pluggedItem(context, source, channel, found.get(channelAddress(source, channel))!),
        ),
      ]),
    cables: placed.map((item) => inputCable(context.old, item)),
  };
}

/** Only what a preset uses was asked about. */
function verdictFor(
  { next }: StepContext,
  verdicts: ReadonlyMap<string, Verdict>,
  source: Source,
  channel: SourceChannel,
): Verdict | undefined {
  const used = next.presets.some(({ routing }) =>
    routing.some(({ sourceChannelId }) => sourceChannelId === channel.id),
  );
  return used ? verdicts.get(source.id) : undefined;
}

function keptSource(
  old: Configuration,
  source: Source,
  unplugged: ReadonlySet<string>,
  verdict: Verdict | undefined,
): readonly StepItem[] {
  const at = `sources/${source.id}`;
  const channels = source.channels.filter(({ id }) => !unplugged.has(id));
  const before = old.sources.find(({ id }) => id === source.id)!;
  const converted = before.kind !== source.kind;
  const words = `Source '${source.label}'`;
  return [
    {
      outcome: "kept",
      place: place(at, words),
      words: `${words} and the order of its ${channels.length} channels are kept.`,
      claims: [
        `${at}/id`,
        `${at}/assignment`,
        `${at}/latencyMs`,
        ...(converted ? [] : [`${at}/kind`]),
        ...channels.flatMap((channel) =>
          ["id", "position", "carries"].map((name) => `${at}/channels/${channel.id}/${name}`),
        ),
      ],
    },
    ...(converted
      ? [
          {
            outcome: verdict === undefined ? ("moved" as const) : outcomeOf(verdict, "moved"),
            place: place(`${at}/kind`, words),
            words: `${words} comes in as ${source.kind} through a converter instead of ${before.kind}.`,
            claims: [`${at}/kind`],
            ...(verdict === undefined ? {} : { questionId: verdict.question.id }),
          },
        ]
      : []),
  ];
}

function pluggedItem(
  { from, to }: StepContext,
  source: Source,
  channel: SourceChannel,
  { placed, connectorId }: { readonly placed: PlacedCable; readonly connectorId: string | undefined },
): StepItem {
  const at = channelAddress(source, channel);
  const was = from.connectors.find(({ id }) => id === channel.connectorId)!;
  const now = to.connectors.find(({ id }) => id === connectorId)!;
  return {
    outcome: was.id === now.id ? "kept" : "moved",
    place: place(`${at}/connectorId`, `Source '${source.label}', position ${channel.position}`),
    words: placed.moved
      ? `The cable moves from ${plugWords(was)} to ${plugWords(now)}.`
      : `The cable stays in its place: ${plugWords(now)}.`,
    numbers: { cableMoved: placed.moved },
    claims: [`${at}/connectorId`],
  };
}
