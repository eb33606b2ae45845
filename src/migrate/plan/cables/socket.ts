import type { Connector, PlugPlace, UnitProfile } from "../../../model/index.ts";
import { byPanel } from "../order.ts";
import { db25PinWords } from "./db25-pins.ts";

/** What one cable plugs into: one connector, or the two channels of an AES3 or S/PDIF line. */
export interface Socket {
  /** The line, or the connector's id. */
  readonly id: string;
  readonly kind: Connector["kind"];
  readonly direction: Connector["direction"];
  readonly style: Connector["style"];
  readonly group: string;
  /** In the order of the line's channels. */
  readonly connectors: readonly Connector[];
  /** Order along the rear panel among sockets of the same direction and kind, from 0. */
  readonly index: number;
  /** Order of its block along the rear panel among blocks of the same direction and kind, from 0. */
  readonly block: number;
}

/** All sockets of a unit along the rear panel. */
export function socketsOf(profile: UnitProfile): readonly Socket[] {
  const lines = new Map<string, Connector[]>();
  for (const connector of [...profile.connectors].sort(byPanel)) {
    const key = JSON.stringify([connector.direction, connector.kind, connector.line ?? connector.id]);
    lines.set(key, [...(lines.get(key) ?? []), connector]);
  }
  const counts = new Map<string, number>();
  const blocks = new Map<string, string[]>();
  return [...lines.values()].map((connectors) => {
    const first = connectors[0]!;
    const sort = JSON.stringify([first.direction, first.kind]);
    const index = counts.get(sort) ?? 0;
    counts.set(sort, index + 1);
    const groups = blocks.get(sort) ?? [];
    if (!groups.includes(first.group)) groups.push(first.group);
    blocks.set(sort, groups);
    return {
      id: first.line ?? first.id,
      kind: first.kind,
      direction: first.direction,
      style: first.style,
      group: first.group,
      connectors: [...connectors].sort((a, b) => (a.lineChannel ?? 0) - (b.lineChannel ?? 0)),
      index,
      block: groups.indexOf(first.group),
    };
  });
}

/**
 * The socket of another unit that answers to a socket of this one, so that a cable going there does not count as moved:
 * of the same direction and kind, and (1) with the same connector id, or else (2) with the same printed group and
 * position, or else (3), where both are of the same mechanical style, in the block at the same rank and at the same
 * position, or else (4) with the same number along the rear panel, counting all of its direction and kind. Another
 * mechanical style alone (a terminal block where a DB-25 was) does not make it a moved cable: it needs another plug,
 * which the sheets say.
 */
export function homeSocket(socket: Socket, others: readonly Socket[]): Socket | undefined {
  const like = others.filter(({ direction, kind }) => direction === socket.direction && kind === socket.kind);
  const { id, position } = socket.connectors[0]!;
  return (
    like.find(({ connectors }) => connectors[0]!.id === id) ??
    like.find((other) => other.group === socket.group && other.connectors[0]!.position === position) ??
    (like.some(({ style }) => style === socket.style)
      ? like.find(
          (other) =>
            other.style === socket.style &&
            other.block === socket.block &&
            other.connectors[0]!.position === position,
        )
      : like.find(({ index }) => index === socket.index))
  );
}

/** A connector as a person finds it. */
export function plugPlace(connector: Connector): PlugPlace {
  const pins = db25PinWords(connector);
  return {
    connectorId: connector.id,
    label: connector.label,
    group: connector.group,
    position: connector.position,
    rack: connector.rack,
    style: connector.style,
    ...(pins === undefined ? {} : { pins }),
  };
}

/** "A 3 (DB-25)": block and position as printed. */
export function plugWords(connector: Connector): string {
  return connector.group === connector.label ? connector.label : `${connector.group} ${connector.label}`;
}
