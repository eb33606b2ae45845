import type { Standing } from "../../../src/logbook/entries/index.ts";

/** The standing of an entry of which nothing special is known. */
export function plainStanding(facts: Partial<Standing> = {}): Standing {
  return {
    signature: "none",
    verdicts: [],
    uncountedWithdrawals: [],
    readBack: { kind: "none" },
    recordedApart: [],
    isOfAnotherModel: false,
    ...facts,
  };
}
