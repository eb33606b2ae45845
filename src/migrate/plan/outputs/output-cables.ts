import type { Cable, Configuration, Output, UnitProfile } from "../../../model/index.ts";
import type { LooseCable, PlacedCable } from "../cables/assign-cables.ts";
import { plugPlace, socketsOf } from "../cables/socket.ts";
import type { Words } from "../words.ts";

/** One cable for each output connector (or AES3 line) in use, in rack order. Spare outputs may go without. */
export function outputCables(configuration: Configuration, from: UnitProfile): readonly LooseCable[] {
  return socketsOf(from).flatMap((socket) => {
    const users = configuration.outputs.filter(({ connectorId }) =>
      socket.connectors.some(({ id }) => id === connectorId),
    );
    if (users.length === 0) return [];
    return [
      {
        items: users.map(({ id }) => `outputs/${id}`),
        socket,
        lineChannels: users.map(
          ({ connectorId }) => socket.connectors.find(({ id }) => id === connectorId)!.lineChannel ?? 0,
        ),
        required: users.some(({ feeds }) => feeds.kind !== "spare"),
      },
    ];
  });
}

/** The new connector of an output; undefined when there is none. */
export function connectorOf(
  output: Output,
  placed: readonly PlacedCable[],
  from: UnitProfile,
): { readonly placed: PlacedCable; readonly connectorId: string | undefined } {
  const cable = placed.find((item) => item.cable.items.includes(`outputs/${output.id}`))!;
  const channel = from.connectors.find(({ id }) => id === output.connectorId)!.lineChannel ?? 0;
  const connector = cable.socket?.connectors.find(({ lineChannel }) => (lineChannel ?? 0) === channel);
  return { placed: cable, connectorId: connector?.id };
}

export function outputCable(
  { cable, socket, moved }: PlacedCable,
  outputs: readonly Output[],
  words: Words,
): Cable {
  const users = outputs.filter(({ id }) => cable.items.includes(`outputs/${id}`));
  const inUse = ({ lineChannel }: { readonly lineChannel?: number }) =>
    cable.lineChannels.includes(lineChannel ?? 0);
  return {
    id: `output/${cable.socket.id}`,
    direction: "output",
    kind: cable.socket.kind,
    words: users.map((output) => words.output(output)).join("; "),
    items: [...cable.items],
    from: cable.socket.connectors.filter(inUse).map(plugPlace),
    to: (socket?.connectors ?? []).filter(inUse).map(plugPlace),
    moved,
  };
}
