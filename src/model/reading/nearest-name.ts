/** The unit in which a name ends: "gain" means "gainDb". */
const UNIT = /(Dbfs|DbC|Db|Hz|Ms|Ohm|[MWC])$/;

/**
 * The known name that a mistyped name most likely means: fewest edits (insert, delete, replace, swap neighbours) in
 * lower case, with or without the unit at its end, at most a third of its length; undefined if none is near.
 */
export function nearestName(name: string, known: readonly string[]): string | undefined {
  let best: string | undefined;
  let bestDistance = Math.max(1, Math.floor(name.length / 3)) + 0.5;
  for (const candidate of known) {
    const wanted = name.toLowerCase();
    const distance = Math.min(
      editDistance(wanted, candidate.toLowerCase()),
      editDistance(wanted, candidate.replace(UNIT, "").toLowerCase()) + 0.25,
    );
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** Optimal string alignment distance. */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_unused, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(row[j - 1]! + 1, previous[j]! + 1, previous[j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        cost = Math.min(cost, before[j - 2]! + 1);
      }
      row.push(cost);
    }
    before = previous;
    previous = row;
  }
  return previous[b.length]!;
}
