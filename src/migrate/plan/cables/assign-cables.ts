import { BoothkeepError } from "../../../base/errors/index.ts";
import { leastCostAssignment } from "../../../base/numeric/index.ts";
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
  /** How much it is missed among those that are not required. @defaultValue 1 */
  readonly missed?: number;
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
 * (1) leaves the fewest required cables, then the least missed spare ones without a socket,
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
  const placed = new Map<LooseCable, PlacedCable>();
  // Cables never go to another kind or direction, so these are problems of their own.
  for (const sort of new Set(cables.map(({ socket }) => sortOf(socket)))) {
    const own = cables.filter(({ socket }) => sortOf(socket) === sort);
    const open = sockets.filter((socket) => sortOf(socket) === sort);
    for (const item of assignSort(own, open, sockets, wishes)) placed.set(item.cable, item);
  }
  return cables.map((cable) => placed.get(cable)!);
}

function sortOf({ direction, kind }: Socket): string {
  return `${direction} ${kind}`;
}

/** The cables of one direction and kind. */
function assignSort(
  cables: readonly LooseCable[],
  sockets: readonly Socket[],
  all: readonly Socket[],
  wishes: readonly ConnectorWish[],
): readonly PlacedCable[] {
  const homes = cables.map(({ socket }) => homeSocket(socket, sockets));
  const allowed = cables.map((cable) => allowedSockets(cable, sockets, all, wishes));
  const oldBlocks = [...new Set(cables.map(({ socket }) => socket.group))];
  const newBlocks = [...new Set(sockets.map(({ group }) => group))];
  const chosen = bestOverBlocks({
    cables,
    sockets,
    homes,
    allowed,
    oldBlocks,
    newBlocks,
    oldBlock: cables.map(({ socket }) => oldBlocks.indexOf(socket.group)),
    newBlock: sockets.map(({ group }) => newBlocks.indexOf(group)),
  });
  return cables.map((cable, row) => {
    const socket = chosen[row] === undefined ? undefined : sockets[chosen[row]];
    return { cable, socket, moved: socket !== homes[row] || socket === undefined };
  });
}

/** For each socket of the kind whether the cable may go there. */
function allowedSockets(
  cable: LooseCable,
  sockets: readonly Socket[],
  all: readonly Socket[],
  wishes: readonly ConnectorWish[],
): readonly boolean[] {
  const fits = sockets.map((socket) => socketTakes(socket, cable));
  for (const { item, rule, connectorId } of wishes) {
    if (!cable.items.includes(item)) continue;
    const holds = ({ connectors }: Socket) => connectors.some(({ id }) => id === connectorId);
    const at = sockets.findIndex(holds);
    const known = all.some(holds);
    if (!known || (rule === "on" && fits[at] !== true)) {
      throw new BoothkeepError(
        "decisions.unfit-connector",
        known
          ? `The connector '${connectorId}' does not take the cable of '${item}'.`
          : `The new unit has no connector '${connectorId}'.`,
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

function socketTakes(socket: Socket, { lineChannels }: LooseCable): boolean {
  const offered = socket.connectors.map(({ lineChannel }) => lineChannel ?? 0);
  return lineChannels.every((channel) => offered.includes(channel));
}

interface BlockProblem {
  readonly cables: readonly LooseCable[];
  readonly sockets: readonly Socket[];
  readonly homes: readonly (Socket | undefined)[];
  readonly allowed: readonly (readonly boolean[])[];
  /** Printed groups on the old and on the new unit. */
  readonly oldBlocks: readonly string[];
  readonly newBlocks: readonly string[];
  /** Block of each cable and of each socket, as an index. */
  readonly oldBlock: readonly number[];
  readonly newBlock: readonly number[];
}

/** For each old block the new block that it is led to; undefined: not decided yet. */
type Images = readonly (number | undefined)[];

interface Solution {
  /** Column of each row; undefined: without a socket. */
  readonly columns: readonly (number | undefined)[];
  readonly cost: readonly number[];
}

function bestOverBlocks(problem: BlockProblem): Solution["columns"] {
  const { oldBlocks } = problem;
  const undecided: Images = oldBlocks.map(() => undefined);
  const free = solve(problem, undecided);
  // Nearly always the images that suggest themselves already reach the bound.
  let best = solve(
    problem,
    oldBlocks.map((_, block) => imagesByUse(problem, free, block)[0]),
  );
  const visit = (images: Images, depth: number, solution: Solution): void => {
    if (compareCost(boundOf(problem, images, solution), best.cost) >= 0) return;
    if (depth === oldBlocks.length) {
      best = solution;
      return;
    }
    for (const image of imagesByUse(problem, solution, depth)) {
      const next = images.with(depth, image);
      visit(next, depth + 1, solve(problem, next));
    }
  };
  visit(undecided, 0, free);
  return best.columns;
}

/**
 * What a decision on the other blocks costs at least: a block larger than every new one cannot stay together, whatever its
 * image.
 */
function boundOf(
  { oldBlocks, newBlocks, oldBlock, newBlock }: BlockProblem,
  images: Images,
  { cost }: Solution,
): readonly number[] {
  const count = (list: readonly number[], block: number) => list.filter((item) => item === block).length;
  const room = Math.max(0, ...newBlocks.map((_, block) => count(newBlock, block)));
  const left = cost[0]! + cost[1]!;
  const apart = oldBlocks.map((_, block) =>
    images[block] === undefined ? Math.max(0, count(oldBlock, block) - room - left) : 0,
  );
  return cost.with(3, cost[3]! + apart.reduce((sum, item) => sum + item, 0));
}

/** The new blocks to which an old one can be led, first those that already take most of it. */
function imagesByUse(
  { oldBlock, newBlock, newBlocks }: BlockProblem,
  { columns }: Solution,
  block: number,
): readonly number[] {
  const uses = newBlocks.map(() => 0);
  columns.forEach((column, row) => {
    if (column !== undefined && oldBlock[row] === block) uses[newBlock[column]!]! += 1;
  });
  return newBlocks.map((_, image) => image).sort((a, b) => uses[b]! - uses[a]! || a - b);
}

/** Cost of a cable on a socket: without socket (required, spare), moved, outside the block's image, squared shift. */
function solve(problem: BlockProblem, images: Images): Solution {
  const { cables, sockets, homes, allowed, oldBlock, newBlock } = problem;
  const { columnOfRow, cost } = leastCostAssignment({
    rows: cables.length,
    columns: sockets.length + cables.length,
    cost: (row, column) => {
      const cable = cables[row]!;
      const socket = sockets[column];
      if (socket === undefined) {
        if (column !== sockets.length + row) return undefined;
        return cable.required ? REQUIRED_LEFT : [0, cable.missed ?? 1, 0, 0, 0];
      }
      if (!allowed[row]![column]) return undefined;
      const image = images[oldBlock[row]!];
      return [
        0,
        0,
        socket === homes[row] ? 0 : 1,
        image === undefined || image === newBlock[column] ? 0 : 1,
        (socket.index - cable.socket.index) ** 2,
      ];
    },
  });
  return {
    columns: columnOfRow.map((column) =>
      column !== undefined && column < sockets.length ? column : undefined,
    ),
    cost,
  };
}

const REQUIRED_LEFT = [1, 0, 0, 0, 0] as const;

function compareCost(a: readonly number[], b: readonly number[]): number {
  for (let level = 0; level < a.length; level += 1) {
    if (a[level] !== b[level]) return a[level]! - b[level]!;
  }
  return 0;
}
