import { printDbChange, printHz } from "../../words/index.ts";

/** Octave mid-bands that are said in words, in Hz. */
const SAID_HZ = [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000] as const;

/** What a curve shows, in words: the largest value and where, then the value at each octave. */
export function alternative(
  name: string,
  frequenciesHz: readonly number[],
  levelsDb: readonly number[],
): string {
  const octaves = SAID_HZ.flatMap((hz) => {
    const index = nearest(frequenciesHz, hz);
    return index === undefined ? [] : [`${printHz(hz)} ${printDbChange(levelsDb[index] ?? 0)}`];
  });
  return `${name}: at most ${largestWords(frequenciesHz, levelsDb)}. By octave: ${octaves.join(", ")}.`;
}

/** "+3.2 dB at 2.5 kHz": the largest value, whatever its sign. */
export function largestWords(frequenciesHz: readonly number[], levelsDb: readonly number[]): string {
  const at = levelsDb.reduce(
    (best, level, index) => (Math.abs(level) > Math.abs(levelsDb[best] ?? 0) ? index : best),
    0,
  );
  return `${printDbChange(levelsDb[at] ?? 0)} at ${printHz(Number((frequenciesHz[at] ?? 0).toPrecision(2)))}`;
}

/** The position of the frequency nearest to another, when the frequencies reach so far. */
function nearest(frequenciesHz: readonly number[], wantedHz: number): number | undefined {
  const last = frequenciesHz.at(-1);
  if (last === undefined || wantedHz > last * 1.1) return undefined;
  return frequenciesHz.reduce(
    (best, hz, index) =>
      Math.abs(Math.log(hz / wantedHz)) < Math.abs(Math.log(frequenciesHz[best]! / wantedHz)) ? index : best,
    0,
  );
}
