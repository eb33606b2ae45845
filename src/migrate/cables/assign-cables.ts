import { BoothkeepError } from "../../errors/index.ts";
import { leastCostAssignment } from "../../numeric/index.ts";
import { homeSocket, type Socket } from "./socket.ts";

/** A cable that needs a socket on the new unit. */
export interface LooseCable {
  /** Addresses of what it serves. */
  readonly items: readonly string[];
  /** Where it is plugged on the old unit. */
  readonly socket: Socket;
  /** Channels of the line that are in use; a socket has to offer them. One connector: [0]. */
  readonly lineChannels: readonly number[];
  /** False: it may stay unplugged when there is no room (a spare output). */
  readonly required: boolean;
}

/** Wishes of the decisions file, by item. */
export interface ConnectorWish {
  readonly item: string;
  readonly rule: "on" | "not-on";
  readonly connectorId: string;
}

export interface CableProblem {
  /** In rack order of the old unit. */
  readonly cables: readonly LooseCable[];
  /** Sockets of the old unit: they give the order of its blocks. */
  readonly sockets: readonly Socket[];
  readonly wishes: readonly ConnectorWish[];
}

export interface PlacedCable {
  readonly cable: LooseCable;
  /** Undefined: no room. */
  readonly socket: Socket | undefined;
  readonly moved: boolean;
}

/**
 * Finds a socket for every cable. Among all ways to do it the plan takes the one that, in this order,
 * (1) leaves the fewest required cables, then the fewest spare ones without a socket,
 * (2) moves the fewest cables (see {@link homeSocket} for what counts as moved),
 * (3) keeps blocks together: each old block is led to one new block, and the fewest cables go elsewhere,
 * (4) keeps nearest to the old order along the rear panel (sum of squared shifts).
 *
 * Exact: (1), (2) and (4) are an assignment problem; for (3) the images of the blocks are found by branch and bound,
 * with the assignment of the blocks decided so far as the bound.
 *
 * @throws BoothkeepError decisions.unfit-connector: a wish names a connector that is not there or does not fit
 */
export function assignCables({ cables, sockets, wishes }: CableProblem): readonly PlacedCable[] {
  if (cables.length === 0) return [];
  const homes = cables.map(({ socket }) => homeSocket(socket, sockets));
  const allowed = cables.map((cable) => allowedSockets(cable, sockets, wishes));
  const problem: BlockProblem = { cables, sockets, homes, allowed };
  const chosen = bestOverBlocks(problem);
  return cables.map((cable, row) => {
    const socket = chosen[row] === undefined ? undefined : sockets[chosen[row]];
    return { cable, socket, moved: socket !== homes[row] || socket === undefined };
  });
}

/** For each socket whether the cable may go there. */
function allowedSockets(
  cable: LooseCable,
  sockets: readonly Socket[],
  wishes: readonly ConnectorWish[],
): readonly boolean[] {
  const fits = sockets.map((socket) => socketTakes(socket, cable));
  for (const { item, rule, connectorId } of wishes) {
    if (!cable.items.includes(item)) continue;
    const at = sockets.findIndex(({ connectors }) => connectors.some(({ id }) => id === connectorId));
    if (at < 0 || (rule === "on" && !fits[at])) {
      throw new BoothkeepError(
        "decisions.unfit-connector",
        at < 0
          ? `The new unit has no connector '${connectorId}'.`
          : `The connector '${connectorId}' does not take the cable of '${item}'.`,
        {
          place: { id: item },
          next: `Name one of: ${sockets
            .filter((_, index) => fits[index])
            .flatMap(({ connectors }) => connectors.map(({ id }) => id))
            .join(", ")}.`,
        },
      );
    }
    fits.forEach((fit, index) => {
      fits[index] = fit && (rule === "on") === (index === at);
    });
  }
  return fits;
}

function socketTakes(socket: Socket, { socket: old, lineChannels }: LooseCable): boolean {
  if (socket.direction !== old.direction || socket.kind !== old.kind) return false;
  const offered = socket.connectors.map(({ lineChannel }) => lineChannel ?? 0);
  return lineChannels.every((channel) => offered.includes(channel));
}

interface BlockProblem {
  readonly cables: readonly LooseCable[];
  readonly sockets: readonly Socket[];
  readonly homes: readonly (Socket | undefined)[];
  readonly allowed: readonly (readonly boolean[])[];
}

/** A block on one unit: its printed group, apart by direction and kind. */
function blockKey({ direction, kind, group }: Socket): string {
  return JSON.stringify([direction, kind, group]);
}

interface Solution {
  /** Column of each row; undefined: without a socket. */
  readonly columns: readonly (number | undefined)[];
  readonly cost: readonly number[];
}

function bestOverBlocks(problem: BlockProblem): readonly (number | undefined)[] {
  const { cables, sockets, allowed } = problem;
  const oldBlocks = [...new Set(cables.map(({ socket }) => blockKey(socket)))];
  const choices = oldBlocks.map((block) => {
    const rows = cables.flatMap(({ socket }, row) => (blockKey(socket) === block ? [row] : []));
    const open = sockets.filter((_, column) => rows.some((row) => allowed[row]![column]));
    return [...new Set(open.map(blockKey))];
  });
  let best: Solution | undefined;
  const visit = (images: ReadonlyMap<string, string>, depth: number): void => {
    const bound = solve(problem, images);
    if (best !== undefined && compareCost(bound.cost, best.cost) >= 0) return;
    if (depth === oldBlocks.length) {
      best = bound;
      return;
    }
    const block = oldBlocks[depth]!;
    for (const image of mostTakenFirst(problem, bound, block, choices[depth]!)) {
      visit(new Map([...images, [block, image]]), depth + 1);
    }
    if (choices[depth]!.length === 0) visit(new Map([...images, [block, ""]]), depth + 1);
  };
  visit(new Map(), 0);
  return best!.columns;
}

/** Tries the image first that already takes most of the block: it is nearly always right, and then prunes the rest. */
function mostTakenFirst(
  { cables, sockets }: BlockProblem,
  { columns }: Solution,
  block: string,
  images: readonly string[],
): readonly string[] {
  const taken = (image: string) =>
    columns.filter(
      (column, row) =>
        column !== undefined &&
        blockKey(cables[row]!.socket) === block &&
        blockKey(sockets[column]!) === image,
    ).length;
  return images
    .map((image, index) => ({ image, index, count: taken(image) }))
    .sort((a, b) => b.count - a.count || a.index - b.index)
    .map(({ image }) => image);
}

/** Cost of a cable on a socket: without socket (required, spare), moved, outside the block's image, squared shift. */
function solve(
  { cables, sockets, homes, allowed }: BlockProblem,
  images: ReadonlyMap<string, string>,
): Solution {
  const costOf = (row: number, column: number): readonly number[] | undefined => {
    const cable = cables[row]!;
    const socket = sockets[column];
    if (socket === undefined) {
      if (column !== sockets.length + row) return undefined;
      return cable.required ? [1, 0, 0, 0, 0] : [0, 1, 0, 0, 0];
    }
    if (!allowed[row]![column]) return undefined;
    const image = images.get(blockKey(cable.socket));
    return [
      0,
      0,
      socket === homes[row] ? 0 : 1,
      image === undefined || image === blockKey(socket) ? 0 : 1,
      (socket.index - cable.socket.index) ** 2,
    ];
  };
  const { columnOfRow, cost } = leastCostAssignment({
    rows: cables.length,
    columns: sockets.length + cables.length,
    cost: costOf,
  });
  return {
    columns: columnOfRow.map((column) =>
      column !== undefined && column < sockets.length ? column : undefined,
    ),
    cost,
  };
}

function compareCost(a: readonly number[], b: readonly number[]): number {
  for (let level = 0; level < a.length; level += 1) {
    if (a[level] !== b[level]) return a[level]! - b[level]!;
  }
  return 0;
}
