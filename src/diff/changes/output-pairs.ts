import type { JsonObject } from "../../model/index.ts";
import type { KeyPair } from "./change-set.ts";

type Outputs = ReadonlyMap<string, JsonObject>;

/**
 * Pairs the outputs of two documents by what they feed: a way of a loudspeaker stays what it is when it is moved to
 * another output, or to a unit whose outputs have other names. An output keeps its namesake when both feed the same,
 * or when what it feeds is not the feed of exactly one output on each side.
 */
export function pairByFeed(left: Outputs, right: Outputs): readonly KeyPair[] {
  const settled = new Set(
    [...left]
      .filter(([id, output]) => right.has(id) && feedOf(output) === feedOf(right.get(id)!))
      .map(([id]) => id),
  );
  const from = soleFeeders(left, settled);
  const to = soleFeeders(right, settled);
  const pairs = [...from].flatMap(([feed, before]) => {
    const after = to.get(feed);
    return after === undefined ? [] : [{ before, after, because: "same-feed" as const }];
  });
  return withoutDisplaced(pairs, left);
}

/** Feeds that exactly one of the outputs has, with that output. */
function soleFeeders(outputs: Outputs, settled: ReadonlySet<string>): ReadonlyMap<string, string> {
  const feeders = new Map<string, string>();
  const shared = new Set<string>();
  for (const [id, output] of outputs) {
    const feed = feedOf(output);
    if (feed === "spare") continue;
    if (feeders.has(feed)) shared.add(feed);
    feeders.set(feed, id);
  }
  return new Map([...feeders].filter(([feed, id]) => !shared.has(feed) && !settled.has(id)));
}

/**
 * A rename onto a name that another output of the first document still holds, and keeps, would leave two of one
 * name. That output then takes the name that became free.
 */
function withoutDisplaced(pairs: readonly KeyPair[], left: Outputs): readonly KeyPair[] {
  const moved = new Set(pairs.map(({ before }) => before));
  const taken = new Set(pairs.map(({ after }) => after));
  const displaced = [...taken].filter((id) => left.has(id) && !moved.has(id));
  const free = [...moved].filter((id) => !taken.has(id));
  return [
    ...pairs,
    ...displaced.map((before, index) => ({ before, after: free[index]!, because: "made-room" as const })),
  ];
}

function feedOf(output: JsonObject): string {
  const { kind, loudspeakerId, wayId } = output.feeds as JsonObject;
  return kind === "loudspeaker" ? JSON.stringify([loudspeakerId, wayId]) : String(kind);
}
