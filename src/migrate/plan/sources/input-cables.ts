import type { Cable, Configuration, Source, SourceChannel, SourceKind } from "../../../model/index.ts";
import type { LooseCable, PlacedCable } from "../cables/assign-cables.ts";
import { plugPlace, type Socket, socketsOf } from "../cables/socket.ts";
import type { StepContext } from "../step.ts";

/** Connector kind that a converted source comes in by. */
const CONVERTED_KIND: Readonly<Partial<Record<SourceKind, Socket["kind"]>>> = {
  aes3: "aes3",
  spdif: "spdif",
};
export function channelAddress(source: Source, channel: SourceChannel): string {
  return `sources/${source.id}/channels/${channel.id}`;
}

/** One cable for each line or connector in use. A source of another kind than before asks for sockets of that kind. */
export function inputCables(configuration: Configuration, { old, from }: StepContext): readonly LooseCable[] {
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

export function inputCable(old: Configuration, { cable, socket, moved }: PlacedCable): Cable {
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
