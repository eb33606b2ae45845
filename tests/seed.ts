import fc from "fast-check";

/**
 * Every law is tried on the same random cases each time, so that what fails was broken by the change at hand and the
 * same revision never passes here and fails there. `BOOTHKEEP_SEED=fresh` looks for new cases, a number repeats the run
 * that printed it.
 */
const USUAL_SEED = 20_261_126;

const asked = process.env.BOOTHKEEP_SEED;
if (asked === undefined) fc.configureGlobal({ seed: USUAL_SEED });
else if (asked !== "fresh") fc.configureGlobal({ seed: Number.parseInt(asked, 10) });
