import type { Cable } from "../../../model/index.ts";

/**
 * Cables as a person finds them: neighbouring channels of an audio network that go from one block to one block share their
 * cable, so they are one.
 */
export function physicalCables(cables: readonly Cable[]): readonly Cable[] {
  const merged: Cable[] = [];
  for (const cable of cables) {
    const last = merged.at(-1);
    if (last !== undefined && sharesCable(last, cable)) merged[merged.length - 1] = joined(last, cable);
    else merged.push(cable);
  }
  return merged;
}

function sharesCable(a: Cable, b: Cable): boolean {
  return (
    a.kind === "aes67" &&
    b.kind === "aes67" &&
    a.direction === b.direction &&
    a.moved === b.moved &&
    a.from[0]?.group === b.from[0]?.group &&
    a.to[0]?.group === b.to[0]?.group
  );
}

function joined(a: Cable, b: Cable): Cable {
  return {
    ...a,
    words: joinedWords(a.words, b.words),
    items: [...a.items, ...b.items],
    from: [...a.from, ...b.from],
    to: [...a.to, ...b.to],
  };
}

/** "Event network, position 1" and "Event network, position 2" make "Event network, positions 1 to 2". */
function joinedWords(a: string, b: string): string {
  const [first, second] = [a, b].map((words) => /^(.*), positions? (\d+)(?: to (\d+))?$/.exec(words));
  if (first?.[1] === undefined || first[1] !== second?.[1]) return `${a}; ${b}`;
  return `${first[1]}, positions ${first[2]} to ${second[2]}`;
}
