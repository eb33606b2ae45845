import type { Witness } from "./witnesses.ts";

/** Fields whose change does not show somewhere. */
export interface NotCovered {
  /** Matches the paths of the table of fields. */
  readonly fields: RegExp;
  /** Where it does not show. */
  readonly by: readonly Witness[];
  readonly reason: string;
}

/**
 * The one list of what does not show where, and why. Whatever is not on it has to show everywhere: in the comparison, in the
 * proof, in the accounts of a migration, on the entry sheet and in the tables. A line that is no longer true fails.
 */
export const NOT_COVERED: readonly NotCovered[] = [
  {
    fields: /^sources\[\]\.kind$/,
    by: ["proof"],
    reason:
      "By which interface a signal comes in changes nothing of what is heard; at which connector it does is compared.",
  },
  {
    fields: /^(screen\.videoLatencyMs|sources\[\]\.latencyMs)$/,
    by: ["proof", "sheet"],
    reason:
      "Facts of the projector and of the server; the unit has the program delay, which is compared and keyed in.",
  },
  {
    fields: /^loudspeakers\[\]\.ways\[\]\.safeHighPass(Hz|Order)$/,
    by: ["proof", "sheet"],
    reason:
      "What the driver's data sheet asks for; the unit has the high-pass, which is compared and keyed in.",
  },
  {
    fields: /^unit\.(profileId|firmware)$/,
    by: ["proof", "sheet"],
    reason: "Which unit it is and not what it is set to; both papers name it in their heads.",
  },
  {
    fields: /^network\./,
    by: ["proof"],
    reason:
      "No address changes what is heard; which interface a trigger listens on is compared with the automation.",
  },
  {
    fields: /^outputs\[\]\.fir\.taps\[\]$/,
    by: ["sheet", "tables"],
    reason: "Hundreds of coefficients are loaded from a file, and the entry sheet says so.",
  },
  {
    fields: /^outputs\[\]\.fir\.enabled$/,
    by: ["tables"],
    reason: "Tables have no FIR filters, so there is nothing that could be switched on.",
  },
  {
    fields: /^(screen|unit|operation|network)\./,
    by: ["tables"],
    reason: "There is one of each on a screen; tables are for what comes in rows.",
  },
  {
    fields: /^(sources\[\]\.(kind|assignment|latencyMs)|automation\[\]\.)/,
    by: ["tables"],
    reason: "A handful on a screen, each of another sort; tables are for many rows alike.",
  },
];
