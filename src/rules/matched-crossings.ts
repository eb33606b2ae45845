import type { WayCrossing } from "../acoustics/index.ts";
import { crossoverSort, type RuleContext } from "./context.ts";
import { isMatched, type WayPair, wayPairs } from "./way-pairs.ts";

/** Two ways that meet, and what their sum does there. */
export interface MatchedCrossing extends WayPair {
  readonly crossing: WayCrossing;
}

/**
 * The crossings of ways whose two halves are alike, with ideal drivers. Where halves differ the difference is told, not
 * its effect.
 */
export function matchedCrossings(context: RuleContext): readonly MatchedCrossing[] {
  const pairs = wayPairs(context).filter(isMatched);
  if (pairs.length === 0) return [];
  const { configuration } = context;
  const sums = new Map(
    context.crossoverSums().map((sum) => [crossoverSort(configuration, sum.loudspeakerId), sum]),
  );
  return pairs.flatMap((pair) => {
    const loudspeaker = sums.get(crossoverSort(configuration, pair.lower.loudspeaker.id));
    const found = loudspeaker?.pairs.find(
      ({ lowerWayId, upperWayId }) => lowerWayId === pair.lower.way.id && upperWayId === pair.upper.way.id,
    );
    return found?.crossing === undefined ? [] : [{ ...pair, crossing: found.crossing }];
  });
}
