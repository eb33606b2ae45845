import type {
  Configuration,
  Connector,
  ConnectorKind,
  SourceKind,
  UnitProfile,
} from "../../../model/index.ts";
import { CONNECTORS_OF_SOURCE } from "../../../profile/index.ts";
import { newItems, newTriggers } from "./new-parts.ts";

/*
 * What a standard brings is planned onto the screen's unit as if it came from another one: the same unit, but with room for
 * everything. Inputs and terminals that the unit does not have, or that are taken, are stood in for.
 */

/** A configuration and the unit, of no maker, that can run it. */
export interface AbleUnit {
  readonly configuration: Configuration;
  readonly profile: UnitProfile;
}

/** A unit like the screen's that lacks nothing of what was added. */
export function ableUnit(screen: Configuration, target: Configuration, profile: UnitProfile): AbleUnit {
  const stood: Connector[] = [];
  const used = new Set(usedConnectors(screen));
  const sources = newItems(screen, target, "sources").map((source) => {
    const fit = source.channels.every(({ connectorId }) =>
      isFree(profile, used, connectorId, CONNECTORS_OF_SOURCE[source.kind]),
    );
    if (fit) {
      for (const { connectorId } of source.channels) used.add(connectorId);
      return source;
    }
    const ordered = source.channels.toSorted((a, b) => a.position - b.position);
    const ids = new Map(
      ordered.map((channel, index) => {
        const connector = standIn(source.kind, source.id, index);
        stood.push(connector);
        return [channel.id, connector.id] as const;
      }),
    );
    return {
      ...source,
      channels: source.channels.map((channel) => ({ ...channel, connectorId: ids.get(channel.id)! })),
    };
  });
  const automation = newTriggers(screen, target).map((item) => {
    if (!("connectorId" in item.trigger)) return item;
    const kind = TERMINAL[item.trigger.kind];
    if (isFree(profile, used, item.trigger.connectorId, [kind])) {
      used.add(item.trigger.connectorId);
      return item;
    }
    const connector = terminal(item.id, kind, stood.length);
    stood.push(connector);
    return { ...item, trigger: { ...item.trigger, connectorId: connector.id } };
  });
  const replaced = <Item extends { readonly id: string }>(list: readonly Item[], by: readonly Item[]) =>
    list.map((item) => by.find(({ id }) => id === item.id) ?? item);
  return {
    configuration: {
      ...target,
      sources: replaced(target.sources, sources),
      automation: replaced(target.automation, automation),
    },
    profile: { ...roomy(profile, screen, target), connectors: [...profile.connectors, ...stood] },
  };
}

/** Contacts are a terminal each; many items may share a serial line. */
const TERMINAL = { contact: "contact", serial: "serial" } as const;

function usedConnectors({ sources, automation, operation }: Configuration): readonly string[] {
  return [
    ...sources.flatMap(({ channels }) => channels.map(({ connectorId }) => connectorId)),
    ...automation.flatMap(({ trigger }) => (trigger.kind === "contact" ? [trigger.connectorId] : [])),
    ...(operation.emergencyMute === undefined ? [] : [operation.emergencyMute.connectorId]),
  ];
}

function isFree(
  { connectors }: UnitProfile,
  used: ReadonlySet<string>,
  connectorId: string,
  kinds: readonly ConnectorKind[],
): boolean {
  const connector = connectors.find(({ id }) => id === connectorId);
  if (connector === undefined || !kinds.includes(connector.kind)) return false;
  return connector.kind === "serial" || !used.has(connectorId);
}

/** So far along the rear panel that every connector of the unit comes before. */
const BEHIND_ALL = 1000;

/** An input for one channel of a source; AES3 and S/PDIF carry two on one line (IEC 60958-1). */
function standIn(kind: SourceKind, sourceId: string, index: number): Connector {
  const isPair = kind === "aes3" || kind === "spdif";
  const [connectorKind] = CONNECTORS_OF_SOURCE[kind];
  return {
    id: `standard-${sourceId}-${index + 1}`,
    label: `${index + 1}`,
    direction: "input",
    kind: connectorKind!,
    style: isPair ? "coaxial" : "terminal-block",
    group: `standard-${sourceId}`,
    position: index + 1,
    rack: BEHIND_ALL,
    ...(isPair && { line: `standard-${sourceId}-${(index >> 1) + 1}`, lineChannel: (index % 2) + 1 }),
  } as Connector;
}

function terminal(itemId: string, kind: "contact" | "serial", index: number): Connector {
  return {
    id: `standard-${itemId}`,
    label: `${index + 1}`,
    direction: "control",
    kind,
    style: "terminal-block",
    group: "standard",
    position: index + 1,
    rack: BEHIND_ALL,
  } as Connector;
}

const ROOM = 10_000;

function roomy(profile: UnitProfile, screen: Configuration, target: Configuration): UnitProfile {
  const { graphic, ...equalizations } = profile.equalizations;
  // The unit's own Q belongs to its own layout; another layout is read with the usual one.
  const isForeign = newItems(screen, target, "equalizations").some(({ channels }) =>
    channels.some((channel) => channel.graphic !== undefined && channel.graphic.layout !== graphic?.layout),
  );
  return {
    ...profile,
    sources: { ...profile.sources, max: ROOM, channelsMax: ROOM },
    equalizations: {
      ...equalizations,
      max: ROOM,
      ...(graphic !== undefined && !isForeign && { graphic }),
    },
    presets: { ...profile.presets, routingMax: ROOM },
    automation: { ...profile.automation, max: ROOM, textMax: ROOM },
  };
}
