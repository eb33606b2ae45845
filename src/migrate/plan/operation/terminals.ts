import type { AutomationItem, Cable, Configuration, PlanPlace } from "../../../model/index.ts";
import { assignCables, type LooseCable, type PlacedCable } from "../cables/assign-cables.ts";
import { plugPlace, plugWords, socketsOf } from "../cables/socket.ts";
import type { StepContext, StepItem } from "../step.ts";

/** No connector has this id: whatever still names it found no terminal and is asked about or left out. */
export const NO_TERMINAL = "";

/** Cables on control terminals: the emergency mute first, then automation. */
export function assignTerminals({ next, from, to, decisions }: StepContext) {
  const users = [
    ...(next.operation.emergencyMute === undefined
      ? []
      : [
          {
            address: "operation/emergencyMute",
            words: "Emergency mute",
            connectorId: next.operation.emergencyMute.connectorId,
          },
        ]),
    ...next.automation.flatMap((item) =>
      "connectorId" in item.trigger
        ? [
            {
              address: `automation/${item.id}`,
              words: `Automation '${item.label}'`,
              connectorId: item.trigger.connectorId,
            },
          ]
        : [],
    ),
  ];
  const cables = socketsOf(from).flatMap((socket): LooseCable[] => {
    const mine = users.filter(({ connectorId }) => socket.connectors.some(({ id }) => id === connectorId));
    if (mine.length === 0) return [];
    return [
      {
        items: mine.map(({ address }) => address),
        socket,
        lineChannels: [0],
        required: mine.some(({ address }) => address === "operation/emergencyMute"),
      },
    ];
  });
  const placed = assignCables({ cables, sockets: socketsOf(to), wishes: decisions?.connectors ?? [] });
  const found = new Map(
    placed.flatMap((item) =>
      item.cable.items.map((address) => [address, item.socket?.connectors[0]?.id] as const),
    ),
  );
  const mute = next.operation.emergencyMute;
  const muteConnector = found.get("operation/emergencyMute");
  const changed: Configuration = {
    ...next,
    operation:
      mute === undefined
        ? next.operation
        : { ...next.operation, emergencyMute: { ...mute, connectorId: muteConnector ?? NO_TERMINAL } },
    automation: next.automation.map((item) => {
      const connectorId = found.get(`automation/${item.id}`);
      return "connectorId" in item.trigger
        ? { ...item, trigger: { ...item.trigger, connectorId: connectorId ?? NO_TERMINAL } }
        : item;
    }),
  };
  const words = new Map(users.map((user) => [user.address, user.words]));
  return {
    next: changed,
    cables: placed.map((item) => terminalCable(item, words)),
  };
}

function terminalCable({ cable, socket, moved }: PlacedCable, words: ReadonlyMap<string, string>): Cable {
  return {
    id: `control/${cable.socket.id}`,
    direction: "control",
    kind: cable.socket.kind,
    words: cable.items.map((address) => words.get(address)!).join("; "),
    items: [...cable.items],
    from: cable.socket.connectors.map(plugPlace),
    to: (socket?.connectors ?? []).map(plugPlace),
    moved,
  };
}

/** On which terminal the wires of something are now. */
export function terminalItem(
  { old, from, to }: Pick<StepContext, "old" | "from" | "to">,
  at: PlanPlace,
  connectorId: string,
): StepItem {
  const oldId =
    at.address === "operation/emergencyMute"
      ? old.operation.emergencyMute?.connectorId
      : terminalOf(old.automation.find(({ id }) => at.address === `automation/${id}`));
  const was = from.connectors.find(({ id }) => id === oldId)!;
  const now = to.connectors.find(({ id }) => id === connectorId)!;
  return {
    outcome: was.id === now.id ? "kept" : "moved",
    place: { address: `${at.address}/terminal`, words: at.words },
    words: `Its wires were on ${plugWords(was)} and are on ${plugWords(now)}.`,
    claims: [`${at.address}/connectorId`, `${at.address}/trigger/connectorId`],
  };
}

function terminalOf(item: AutomationItem | undefined): string | undefined {
  return item !== undefined && "connectorId" in item.trigger ? item.trigger.connectorId : undefined;
}
