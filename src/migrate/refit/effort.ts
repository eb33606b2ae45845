/** How long to search: rounds, never time. */
export interface Effort {
  /** Rounds of the search without steps, per band. */
  readonly relocationsPerBand: number;
  /** Banks that are put on the steps. */
  readonly kept: number;
  /** Rounds of the search on the steps, per band. */
  readonly resettlingsPerBand: number;
  /** Where the steps limit, also to start from a quick fit with a band fewer. */
  readonly startsFromFewer: boolean;
}

export const EFFORTS: Readonly<Record<"quick" | "thorough", Effort>> = {
  thorough: { relocationsPerBand: 28, kept: 12, resettlingsPerBand: 16, startsFromFewer: true },
  quick: { relocationsPerBand: 2, kept: 3, resettlingsPerBand: 3, startsFromFewer: false },
};

const MANY_BANDS = 10;
const MOST_MORE = 0.8;

/**
 * Rounds of a search for so many bands. Beyond ten bands there are many more ways to place them: there up to 80 % more
 * rounds a band, all of them from 16 bands on.
 */
export function roundsFor(bands: number, perBand: number): number {
  const more = MOST_MORE * Math.min(1, Math.max(0, bands - MANY_BANDS) / 6);
  return Math.round(perBand * bands * (1 + more));
}
