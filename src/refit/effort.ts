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
  thorough: { relocationsPerBand: 13, kept: 12, resettlingsPerBand: 12, startsFromFewer: true },
  quick: { relocationsPerBand: 1, kept: 3, resettlingsPerBand: 3, startsFromFewer: false },
};

const MANY_BANDS = 12;
const MOST_MORE = 0.25;

/**
 * Rounds of a search for so many bands. Beyond a dozen bands what is left is small and the steps limit it: there a
 * sixteenth more rounds for each further band, at most a quarter more, take the median error at 16 bands nearer to the
 * best known.
 */
export function roundsFor(bands: number, perBand: number): number {
  const more = Math.min(MOST_MORE, Math.max(0, bands - MANY_BANDS) / 16);
  return Math.round(perBand * bands * (1 + more));
}
