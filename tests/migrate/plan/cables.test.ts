import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  assignCables,
  type LooseCable,
  type PlacedCable,
} from "../../../src/migrate/plan/cables/assign-cables.ts";
import { db25Pins } from "../../../src/migrate/plan/cables/db25-pins.ts";
import { homeSocket, type Socket, socketsOf } from "../../../src/migrate/plan/cables/socket.ts";
import type { Connector, UnitProfile } from "../../../src/model/index.ts";

const munkres = createRequire(import.meta.url)("munkres-js") as (costs: number[][]) => [number, number][];

function unit(connectors: readonly Connector[]): UnitProfile {
  return { connectors } as unknown as UnitProfile;
}

interface Block {
  readonly name: string;
  readonly count: number;
}

const blocks: fc.Arbitrary<Block[]> = fc.uniqueArray(
  fc.record({ name: fc.constantFrom("A", "B", "C", "D"), count: fc.integer({ min: 1, max: 4 }) }),
  { minLength: 1, maxLength: 3, selector: ({ name }) => name },
);

function outputsOf(list: readonly Block[], prefix: string): readonly Connector[] {
  return list.flatMap(({ name, count }, rack) =>
    Array.from({ length: count }, (_, index) => ({
      id: `${prefix}-${name}${index + 1}`,
      label: `${name} ${index + 1}`,
      direction: "output" as const,
      kind: "analog" as const,
      group: name,
      position: index + 1,
      rack: rack + 1,
      style: "xlr" as const,
    })),
  );
}

function cablesOf(
  sockets: readonly Socket[],
  used: readonly number[],
  spare: ReadonlySet<number>,
): LooseCable[] {
  return used
    .map((index) => index % sockets.length)
    .filter((index, place, all) => all.indexOf(index) === place)
    .sort((a, b) => a - b)
    .map((index) => ({
      items: [`outputs/o${index}`],
      socket: sockets[index]!,
      lineChannels: [0],
      required: !spare.has(index),
    }));
}

const problems = fc.record({
  from: blocks,
  to: blocks,
  sameIds: fc.boolean(),
  used: fc.array(fc.nat(11), { minLength: 1, maxLength: 6 }),
  spare: fc.array(fc.nat(11), { maxLength: 3 }),
});

function solved({
  from,
  to,
  sameIds,
  used,
  spare,
}: typeof problems extends fc.Arbitrary<infer T> ? T : never) {
  const old = socketsOf(unit(outputsOf(from, "x")));
  const sockets = socketsOf(unit(outputsOf(to, sameIds ? "x" : "y")));
  const cables = cablesOf(old, used, new Set(spare));
  return { sockets, cables, placed: assignCables({ cables, sockets, wishes: [] }) };
}

/** Without socket (required, spare), moved, off the image that most of the block takes, squared shift. */
function costOf(placed: readonly PlacedCable[], sockets: readonly Socket[]): number[] {
  const byBlock = new Map<string, Map<string, number>>();
  for (const { cable, socket } of placed) {
    if (socket === undefined) continue;
    const images = byBlock.get(cable.socket.group) ?? new Map<string, number>();
    images.set(socket.group, (images.get(socket.group) ?? 0) + 1);
    byBlock.set(cable.socket.group, images);
  }
  const off = [...byBlock.values()].map((images) => {
    const counts = [...images.values()];
    return counts.reduce((sum, count) => sum + count, 0) - Math.max(...counts);
  });
  const sum = (values: readonly number[]) => values.reduce((total, item) => total + item, 0);
  return [
    placed.filter(({ socket, cable }) => socket === undefined && cable.required).length,
    placed.filter(({ socket, cable }) => socket === undefined && !cable.required).length,
    placed.filter(({ socket, cable }) => socket !== undefined && socket !== homeSocket(cable.socket, sockets))
      .length,
    sum(off),
    sum(
      placed.map(({ socket, cable }) =>
        socket === undefined ? 0 : (socket.index - cable.socket.index) ** 2,
      ),
    ),
  ];
}

function less(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((item, level) => item !== b[level]);
  return at >= 0 && a[at]! < b[at]!;
}

describe("assignCables", () => {
  it("comes to the cost that trying every placement comes to", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const { sockets, cables, placed } = solved(problem);
        let best = costOf(placed, sockets);
        const chosen: (Socket | undefined)[] = [];
        const tryAll = (row: number): void => {
          if (row === cables.length) {
            const other = cables.map((cable, at) => ({ cable, socket: chosen[at], moved: false }));
            const cost = costOf(other, sockets);
            if (less(cost, best)) best = cost;
            return;
          }
          for (const socket of [...sockets, undefined]) {
            if (socket !== undefined && chosen.slice(0, row).includes(socket)) continue;
            chosen[row] = socket;
            tryAll(row + 1);
          }
        };
        if (cables.length <= 4) tryAll(0);
        expect(costOf(placed, sockets)).toEqual(best);
      }),
      { numRuns: 120 },
    );
  });

  it("moves as few cables as an independent solver (munkres-js) says that have to move", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const { sockets, cables, placed } = solved(problem);
        if (cables.length > sockets.length) return;
        const costs = cables.map((cable) =>
          sockets.map((socket) => (socket === homeSocket(cable.socket, sockets) ? 0 : 1)),
        );
        const fewest = munkres(costs).reduce((sum, [row, column]) => sum + costs[row]![column]!, 0);
        expect(placed.filter(({ moved }) => moved).length).toBe(fewest);
      }),
      { numRuns: 200 },
    );
  });

  it("obeys a pin and a ban, and refuses a pin that does not fit", () => {
    const old = socketsOf(unit(outputsOf([{ name: "A", count: 2 }], "x")));
    const sockets = socketsOf(unit(outputsOf([{ name: "A", count: 4 }], "x")));
    const cables = cablesOf(old, [0, 1], new Set());
    const place = (rule: "on" | "not-on", connectorId: string) =>
      assignCables({ cables, sockets, wishes: [{ item: "outputs/o0", rule, connectorId }] }).map(
        ({ socket }) => socket?.id,
      );
    expect(place("on", "x-A4")).toEqual(["x-A4", "x-A2"]);
    expect(place("not-on", "x-A1")).toEqual(["x-A3", "x-A2"]);
    expect(() => place("on", "x-A9")).toThrow("has no connector 'x-A9'");
  });

  it("takes both channels of an AES3 line along in one cable", () => {
    const lines = (prefix: string): Connector[] =>
      [1, 2, 3, 4].map((position) => ({
        id: `${prefix}${position}`,
        label: `${position}`,
        direction: "input",
        kind: "aes3",
        group: prefix,
        position,
        rack: 1,
        style: "db25",
        line: `${prefix} ${Math.ceil(position / 2)}`,
        lineChannel: 2 - (position % 2),
      }));
    const old = socketsOf(unit(lines("In")));
    expect(old.map(({ connectors }) => connectors.map(({ id }) => id))).toEqual([
      ["In1", "In2"],
      ["In3", "In4"],
    ]);
    const single: Connector = { ...lines("Dig")[0]!, lineChannel: 1 };
    const sockets = socketsOf(unit([single]));
    const cable = { items: ["a", "b"], socket: old[0]!, lineChannels: [1, 2], required: true };
    expect(assignCables({ cables: [cable], sockets, wishes: [] })[0]?.socket).toBeUndefined();
  });
});

describe("db25Pins", () => {
  const table = JSON.parse(
    readFileSync(join(import.meta.dirname, "..", "..", "reference", "db25-pinout.json"), "utf8"),
  ) as {
    readonly facts: Readonly<
      Record<string, readonly { pin: number; circuit: string | null; conductor: string }[]>
    >;
  };
  const base = { id: "x", label: "x", kind: "analog", group: "x", rack: 1, style: "db25" } as const;

  function pinsIn(name: string, circuit: string) {
    const pin = (conductor: string) =>
      table.facts[name]!.find((fact) => fact.circuit === circuit && fact.conductor === conductor)!.pin;
    return { hot: pin("+"), cold: pin("-"), screen: pin("screen") };
  }

  it("has the analogue circuits of AES59 (public tables, see the reference's sources)", () => {
    for (let channel = 1; channel <= 8; channel += 1) {
      const connector: Connector = {
        ...base,
        direction: "output",
        position: channel,
        wiring: "aes59-analog",
      };
      expect(db25Pins(connector)).toEqual(pinsIn("aes59Analog", `channel ${channel}`));
    }
  });

  it("has the digital circuits of AES59: inputs first, two channels a line", () => {
    for (const direction of ["input", "output"] as const) {
      for (let position = 1; position <= 8; position += 1) {
        const connector: Connector = { ...base, kind: "aes3", direction, position, wiring: "aes59-digital" };
        const odd = position - ((position + 1) % 2);
        const circuit = `${direction === "input" ? "in" : "out"} ${odd}/${odd + 1}`;
        expect(db25Pins(connector)).toEqual(pinsIn("aes59Digital", circuit));
      }
    }
  });

  it("names no pins where the profile names no wiring", () => {
    expect(db25Pins({ ...base, direction: "output", position: 1 })).toBeUndefined();
  });
});
