import { levelGrids } from "../staging/level-grids.ts";
import { crossingItems, valueItems } from "../staging/level-items.ts";
import { settleLevelRange } from "../staging/level-range.ts";
import { largestDeviation } from "../staging/path-totals.ts";
import { withinStages } from "../staging/restage.ts";
import { solveLevels } from "../staging/solve-levels.ts";
import type { Step } from "../step.ts";

/**
 * Levels: the total of every path is kept, whatever stages it is made of (input trim, crossing, preset, channel, mix,
 * output). Steps are chosen so that what comes in as differences is smallest between the ways of a loudspeaker, then
 * between loudspeakers and channels, then between presets, then overall; see solveStages and solvePresets.
 */
export const levels: Step = {
  name: "levels",
  run: (context) => {
    const grids = levelGrids(context.to);
    const inRange = settleLevelRange({ ...context, next: withinStages(context.next, grids) }, grids);
    const solved = solveLevels(inRange.next, inRange.fixed, grids);
    return {
      next: solved.next,
      items: [
        ...inRange.items,
        ...crossingItems(context, solved.next),
        ...valueItems(context, solved.next, inRange.fixed),
      ],
      questions: inRange.questions,
      levels: { unit: "dB", ...solved.spread, largest: largestDeviation(inRange.next, solved.next) },
    };
  },
};
