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
