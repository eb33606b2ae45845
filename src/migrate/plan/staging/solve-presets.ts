import { middleOf, narrowestWindows, type Window, windowNearest } from "../smallest-window.ts";
import type { Candidate } from "./candidates.ts";

export interface PresetStage {
  readonly id: string;
  readonly own: readonly Candidate[];
  readonly routes: readonly {
    readonly id: string;
    readonly candidates: readonly Candidate[];
    /** What the stages before and behind add to the error of this route. */
    readonly added: number;
    /** False: it goes to a headset or monitor and is not balanced against the room. */
    readonly inRoom: boolean;
  }[];
}

export interface PresetSolution {
  readonly presets: ReadonlyMap<string, number>;
  readonly routes: ReadonlyMap<string, ReadonlyMap<string, number>>;
  readonly betweenChannels: number;
  readonly betweenPresets: number;
  readonly common: number;
}

/**
 * Chooses route gains and preset offsets so that (1) inside every preset the largest difference between its routes is as
 * small as it can be, (2) then the largest difference between presets, (3) then what all have in common is nearest to 0.
 */
export function solvePresets(stages: readonly PresetStage[]): PresetSolution {
  const solved = stages.map((stage) => {
    const room = stage.routes.filter(({ inRoom }) => inRoom);
    const windows = narrowestWindows(
      room.map(({ candidates, added }) => [
        {
          change: 0,
          lists: [candidates.map(({ error }) => ({ value: error + added, change: Math.abs(error) }))],
        },
      ]),
    );
    return { stage, room, windows };
  });
  const balance = windowNearest(
    narrowestWindows(
      solved.map(({ stage, room, windows }) =>
        stage.own.map(({ error }) => ({
          change: Math.abs(error),
          lists: [windows.map((w) => ({ value: middleOf(w) + error, change: changeOf(w, room) }))],
        })),
      ),
    ),
    0,
  ) ?? { low: 0, high: 0, picks: [] };
  const presets = new Map<string, number>();
  const routes = new Map<string, ReadonlyMap<string, number>>();
  let betweenChannels = 0;
  solved.forEach(({ stage, room, windows }, index) => {
    const { alternative, candidates } = balance.picks[index]!;
    const offset = stage.own[alternative]!;
    const window = windows[candidates[0]!]!;
    betweenChannels = Math.max(betweenChannels, window.high - window.low);
    presets.set(stage.id, offset.value);
    routes.set(
      stage.id,
      new Map(
        stage.routes.map((route) => {
          const at = room.indexOf(route);
          const list = at < 0 ? 0 : window.picks[at]!.candidates[0]!;
          return [route.id, (at < 0 ? nearestSum(route, offset.error) : route.candidates[list]!).value];
        }),
      ),
    );
  });
  return {
    presets,
    routes,
    betweenChannels,
    betweenPresets: balance.high - balance.low,
    common: middleOf(balance),
  };
}

/** By how much a window changes the crossing that it changes most. */
function changeOf({ picks }: Window, routes: PresetStage["routes"]): number {
  const changes = picks.map(({ candidates }, index) =>
    Math.abs(routes[index]!.candidates[candidates[0]!]!.error),
  );
  return Math.max(0, ...changes);
}

function nearestSum(route: PresetStage["routes"][number], offset: number): Candidate {
  return route.candidates.reduce((best, item) =>
    Math.abs(item.error + route.added + offset) < Math.abs(best.error + route.added + offset) - 1e-9
      ? item
      : best,
  );
}
