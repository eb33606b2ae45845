import type { Cable, Configuration, Question, Source, SourceChannel, SourceKind } from "../../model/index.ts";
import { assignCables, type LooseCable, type PlacedCable } from "../cables/assign-cables.ts";
import { plugPlace, plugWords, type Socket, socketsOf } from "../cables/socket.ts";
import { leaveOut } from "../leave-out.ts";
import { presetOrder, sourceOrder } from "../order.ts";
import { ask, outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/** Sources and the input connectors that their channels come in by. */
export const sources: Step = {
  name: "sources",
  run: (context) => {
    const counted = withinCount(context);
    const sized = withinChannels({ ...context, next: counted.next });
    const plugged = plugIn({ ...context, next: sized.next });
    const orphans = withoutSource(context.old, plugged.next);
    return {
      next: orphans.next,
      items: [...counted.items, ...sized.items, ...plugged.items, ...orphans.items],
      questions: [...counted.questions, ...sized.questions, ...plugged.questions],
      cables: plugged.cables,
    };
  },
};

interface Part {
  readonly next: Configuration;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

/** As many sources as the unit holds; what fewest presets use is proposed to go. */
function withinCount(context: StepContext): Part {
  const { next, to, from } = context;
  const uses = (source: Source) => next.presets.filter(({ sourceId }) => sourceId === source.id).length;
  const inOrder = [...next.sources].sort(sourceOrder(from));
  const leastUsed = [...inOrder].reverse().sort((a, b) => uses(a) - uses(b));
  const left = leaveOut(context, {
    questionId: "sources/count",
    place: place("sources", "Sources"),
    things: "sources",
    max: to.sources.max,
    count: next.sources.length,
    candidates: leastUsed.map((source) => ({
      id: source.id,
      label: source.label,
      loss: `${uses(source)} presets use it and go with it.`,
    })),
    reason: "fewest presets use them.",
  });
  return {
    next: { ...next, sources: next.sources.filter(({ id }) => !left.ids.has(id)) },
    items: inOrder
      .filter(({ id }) => left.ids.has(id))
      .map((source) => lostSource(source, "The unit holds fewer sources", left.verdict!)),
    questions: left.verdict === undefined ? [] : [left.verdict.question],
  };
}

function lostSource(source: Source, why: string, verdict: Verdict): StepItem {
  return {
    outcome: outcomeOf(verdict, "lost"),
    place: place(`sources/${source.id}`, `Source '${source.label}'`),
    words: `${why}: '${source.label}' is left out.`,
    claimsRest: [`sources/${source.id}`],
    questionId: verdict.question.id,
  };
}

/** As many channels in each source as the unit takes; what no preset routes is proposed to go. */
function withinChannels(context: StepContext): Part {
  const { next, to, from } = context;
  const parts = [...next.sources].sort(sourceOrder(from)).map((source) => {
    const uses = routeCounts(next, source);
    const candidates = [...source.channels]
      .sort((a, b) => (uses.get(a.id) ?? 0) - (uses.get(b.id) ?? 0) || b.position - a.position)
      .map((channel) => ({
        id: channel.id,
        label: `position ${channel.position}`,
        loss: `${uses.get(channel.id) ?? 0} routes use it.`,
      }));
    const left = leaveOut(context, {
      questionId: `sources/${source.id}/channels`,
      place: place(`sources/${source.id}`, `Source '${source.label}'`),
      things: "channels in one source",
      max: to.sources.channelsMax,
      count: source.channels.length,
      candidates,
      reason: "fewest presets route them.",
    });
    return { source, left };
  });
  const gone = new Set(parts.flatMap(({ left }) => [...left.ids]));
  return {
    next: withoutSourceChannels(next, gone),
    items: parts.flatMap(({ source, left }) => {
      const lost = source.channels.filter(({ id }) => left.ids.has(id));
      return lost.map((channel) => lostChannel(next, { source, channel, verdict: left.verdict }));
    }),
    questions: parts.flatMap(({ left }) => (left.verdict === undefined ? [] : [left.verdict.question])),
  };
}

function routeCounts(configuration: Configuration, source: Source): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const preset of configuration.presets) {
    if (preset.sourceId !== source.id) continue;
    for (const { sourceChannelId } of preset.routing) {
      counts.set(sourceChannelId, (counts.get(sourceChannelId) ?? 0) + 1);
    }
  }
  return counts;
}

function withoutSourceChannels(configuration: Configuration, gone: ReadonlySet<string>): Configuration {
  if (gone.size === 0) return configuration;
  return {
    ...configuration,
    sources: configuration.sources.map((source) => ({
      ...source,
      channels: source.channels.filter(({ id }) => !gone.has(id)),
    })),
    presets: configuration.presets.map((preset) => ({
      ...preset,
      routing: preset.routing.filter(({ sourceChannelId }) => !gone.has(sourceChannelId)),
    })),
  };
}

/** A source channel that goes, and the routes that start at it. Without a verdict nothing used it. */
function lostChannel(
  configuration: Configuration,
  {
    source,
    channel,
    verdict,
  }: { readonly source: Source; readonly channel: SourceChannel; readonly verdict: Verdict | undefined },
): StepItem {
  const at = `sources/${source.id}/channels/${channel.id}`;
  const routes = configuration.presets.flatMap((preset) =>
    preset.routing
      .filter(({ sourceChannelId }) => sourceChannelId === channel.id)
      .map((route) => `presets/${preset.id}/routing/${route.id}`),
  );
  return {
    outcome: verdict === undefined ? "lost" : outcomeOf(verdict, "lost"),
    place: place(at, `Source '${source.label}', position ${channel.position}`),
    words:
      routes.length === 0
        ? `No connector is left for position ${channel.position}, which no preset uses.`
        : `Position ${channel.position} is left out, and with it ${routes.length} routes.`,
    numbers: { routes: routes.length },
    claimsRest: [at, ...routes],
    ...(verdict === undefined ? {} : { questionId: verdict.question.id }),
  };
}

interface PluggedPart extends Part {
  readonly cables: readonly Cable[];
}

/** Plugs every cable in; a source that finds no room is asked about, and then the rest is plugged once more. */
function plugIn(context: StepContext): PluggedPart {
  const { next, from, to, decisions } = context;
  const wishes = decisions?.connectors ?? [];
  const sockets = socketsOf(to);
  const cables = inputCables(next, context);
  const first = assignCables({ cables, sockets, wishes });
  const homeless = new Set(
    first
      .filter(({ socket, cable }) => socket === undefined && cable.required)
      .flatMap(({ cable }) => cable.items),
  );
  const troubled = [...next.sources]
    .sort(sourceOrder(from))
    .filter((source) => source.channels.some((channel) => homeless.has(channelAddress(source, channel))));
  const verdicts = troubled.map((source) => ({
    source,
    verdict: ask(context, roomQuestion(context, source, homeless)),
  }));
  const changed = verdicts.reduce((state, { source, verdict }) => decided(state, source, verdict), next);
  const placed =
    troubled.length === 0 ? first : assignCables({ cables: inputCables(changed, context), sockets, wishes });
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

function channelAddress(source: Source, channel: SourceChannel): string {
  return `sources/${source.id}/channels/${channel.id}`;
}

/** One cable for each line or connector in use. A source of another kind than before asks for sockets of that kind. */
function inputCables(configuration: Configuration, { old, from }: StepContext): readonly LooseCable[] {
  const sockets = socketsOf(from);
  const routed = new Set(
    configuration.presets.flatMap(({ routing }) => routing.map(({ sourceChannelId }) => sourceChannelId)),
  );
  const kinds = new Map(old.sources.map(({ id, kind }) => [id, kind]));
  const bySocket = new Map<Socket, { source: Source; channel: SourceChannel }[]>();
  for (const source of configuration.sources) {
    for (const channel of source.channels) {
      const socket = sockets.find(({ connectors }) =>
        connectors.some(({ id }) => id === channel.connectorId),
      )!;
      bySocket.set(socket, [...(bySocket.get(socket) ?? []), { source, channel }]);
    }
  }
  return sockets.flatMap((socket) => {
    const users = bySocket.get(socket);
    if (users === undefined) return [];
    const { source } = users[0]!;
    const converted = source.kind !== kinds.get(source.id) ? CONVERTED_KIND[source.kind] : undefined;
    return [
      {
        items: users.map((user) => channelAddress(user.source, user.channel)),
        socket: converted === undefined ? socket : { ...socket, kind: converted },
        lineChannels: users.map(
          ({ channel }) => socket.connectors.find(({ id }) => id === channel.connectorId)!.lineChannel ?? 0,
        ),
        required: users.some(({ channel }) => routed.has(channel.id)),
      },
    ];
  });
}

/** Connector kind that a converted source comes in by. */
const CONVERTED_KIND: Readonly<Partial<Record<SourceKind, Socket["kind"]>>> = {
  aes3: "aes3",
  spdif: "spdif",
};
/** Kinds that a format converter turns into one another: two channels on one line both. */
const CONVERTIBLE: Readonly<Partial<Record<SourceKind, SourceKind>>> = { spdif: "aes3", aes3: "spdif" };

function roomQuestion(context: StepContext, source: Source, homeless: ReadonlySet<string>): Question {
  const { next, to } = context;
  const without = source.channels.filter((channel) => homeless.has(channelAddress(source, channel)));
  const presets = next.presets.filter(({ sourceId }) => sourceId === source.id);
  const target = CONVERTIBLE[source.kind];
  const free =
    target === undefined
      ? 0
      : socketsOf(to).filter(({ kind, direction }) => kind === target && direction === "input").length -
        inputCables(next, context).filter(({ socket }) => socket.kind === target).length;
  const canConvert = target !== undefined && free * 2 >= source.channels.length;
  const whole = without.length === source.channels.length;
  const unanswered = canConvert ? `convert-to-${target}` : whole ? "leave-out" : "without-channels";
  return {
    id: `sources/${source.id}/room`,
    place: place(`sources/${source.id}`, `Source '${source.label}'`),
    words: `The new unit has no input of its kind (${source.kind}) left for ${
      whole ? "the source" : `${without.length} of ${source.channels.length} channels of the source`
    } '${source.label}'. What shall be done?`,
    options: [
      ...(canConvert
        ? [
            {
              id: `convert-to-${target}`,
              words: `It comes in as ${target} through a format converter.`,
              consequence:
                "A converter is needed in the rack; its latency is not in the plan until it is entered.",
              numbers: { freeLines: free },
            },
          ]
        : []),
      ...(whole
        ? []
        : [
            {
              id: "without-channels",
              words: `Positions ${without.map(({ position }) => position).join(", ")} stay unplugged.`,
              consequence: "Whatever presets route from them is heard no more.",
              numbers: { channels: without.length },
            },
          ]),
      {
        id: "leave-out",
        words: "The source is left out.",
        consequence:
          presets.length === 0
            ? "No preset uses it."
            : `These presets go with it: ${[...presets]
                .sort(presetOrder)
                .map(({ label }) => `'${label}'`)
                .join(", ")}.`,
        numbers: { presets: presets.length },
      },
    ],
    recommended: {
      optionId: unanswered,
      reason: canConvert ? "everything keeps playing." : "it loses least.",
    },
    unanswered: { optionId: unanswered, words: "The plan takes the proposed way." },
  };
}

function decided(configuration: Configuration, source: Source, { option }: Verdict): Configuration {
  if (option.id === "leave-out") {
    return { ...configuration, sources: configuration.sources.filter(({ id }) => id !== source.id) };
  }
  if (!option.id.startsWith("convert-to-")) return configuration;
  const kind = option.id.slice("convert-to-".length) as SourceKind;
  return {
    ...configuration,
    sources: configuration.sources.map((item) => (item.id === source.id ? { ...item, kind } : item)),
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
  const inOrder = [...configuration.sources].sort(sourceOrder(context.from));
  return {
    next: withoutSourceChannels(plugged, unplugged),
    items: (verdicts: ReadonlyMap<string, Verdict>): readonly StepItem[] =>
      inOrder.flatMap((source) => [
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
    cables: placed.map((item) => cableOf(context.old, item)),
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

function cableOf(old: Configuration, { cable, socket, moved }: PlacedCable): Cable {
  const users = old.sources.flatMap((source) =>
    source.channels
      .filter((channel) => cable.items.includes(channelAddress(source, channel)))
      .map((channel) => ({ source, channel })),
  );
  const labels = [...new Set(users.map(({ source }) => source.label))].join(" and ");
  const positions = users.map(({ channel }) => channel.position).sort((a, b) => a - b);
  return {
    id: `input/${cable.socket.id}`,
    direction: "input",
    kind: cable.socket.kind,
    words: `${labels}, ${positions.length === 1 ? "position" : "positions"} ${positions.join(" and ")}`,
    items: [...cable.items],
    from: cable.socket.connectors
      .filter(({ lineChannel }) => cable.lineChannels.includes(lineChannel ?? 0))
      .map(plugPlace),
    to: (socket?.connectors ?? [])
      .filter(({ lineChannel }) => cable.lineChannels.includes(lineChannel ?? 0))
      .map(plugPlace),
    moved,
  };
}

/** Presets whose source is gone go with it. */
function withoutSource(
  old: Configuration,
  next: Configuration,
): { readonly next: Configuration; readonly items: readonly StepItem[] } {
  const there = new Set(next.sources.map(({ id }) => id));
  const gone = next.presets.filter(({ sourceId }) => !there.has(sourceId));
  if (gone.length === 0) return { next, items: [] };
  const labels = new Map(old.sources.map(({ id, label }) => [id, label]));
  return {
    next: { ...next, presets: next.presets.filter((preset) => !gone.includes(preset)) },
    items: [...gone].sort(presetOrder).map((preset) => ({
      outcome: "lost",
      place: place(`presets/${preset.id}`, `Preset '${preset.label}'`),
      words: `Preset '${preset.label}' goes, because its source '${labels.get(preset.sourceId) ?? preset.sourceId}' is left out.`,
      claimsRest: [`presets/${preset.id}`],
    })),
  };
}
