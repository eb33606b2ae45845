import type { FedWay, RuleContext } from "./context.ts";

/** Two neighbouring ways of one loudspeaker and the outputs that feed them. */
export interface WayPair {
  readonly lower: FedWay;
  readonly upper: FedWay;
}

/** Neighbouring ways, by the order of the loudspeaker's ways (lowest band first), where both have an output. */
export function wayPairs({ configuration, fedWays }: RuleContext): readonly WayPair[] {
  return configuration.loudspeakers.flatMap(({ id, ways }) => {
    const feeds = ways.map(({ id: wayId }) =>
      fedWays.find((fed) => fed.loudspeaker.id === id && fed.way.id === wayId),
    );
    return feeds.slice(1).flatMap((upper, k) => {
      const lower = feeds[k];
      return lower === undefined || upper === undefined ? [] : [{ lower, upper }];
    });
  });
}

/** Whether both halves of the crossover between two ways are there and alike in family, order and corner. */
export function isMatched({ lower, upper }: WayPair): boolean {
  const { lowPass } = lower.item;
  const { highPass } = upper.item;
  return (
    lowPass !== undefined &&
    highPass !== undefined &&
    lowPass.family === highPass.family &&
    lowPass.order === highPass.order &&
    lowPass.frequencyHz === highPass.frequencyHz
  );
}
