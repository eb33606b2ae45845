/** How long to search: rounds, never time. */
export interface Effort {
  /** Rounds of the search without steps, per band. */
  readonly relocationsPerBand: number;
  /** Banks that are put on the steps. */
  readonly kept: number;
  /** Rounds of the search on the steps, per band. */
  readonly resettlingsPerBand: number;
}

export const EFFORTS: Readonly<Record<"quick" | "thorough", Effort>> = {
  thorough: { relocationsPerBand: 18, kept: 16, resettlingsPerBand: 16 },
  quick: { relocationsPerBand: 1, kept: 3, resettlingsPerBand: 3 },
};
