import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planMigration } from "../../../src/migrate/plan/index.ts";
import { runs } from "../../runs.ts";
import { configurations, oldProfiles, profiles } from "./arbitraries.ts";
import { dangling, decide, misfits, NO_FITS } from "./decide.ts";

const RUNS = runs(25, 100);

const cases = fc.record({
  old: configurations,
  from: oldProfiles,
  to: profiles("new"),
  pick: fc.nat(20),
});

describe("the new configuration", () => {
  it("is one that the unit can hold, with nothing pointing nowhere, even while questions are open", () => {
    fc.assert(
      fc.property(cases, ({ old, from, to }) => {
        const { configuration } = planMigration(old, { from, to, eqFits: NO_FITS });
        expect(misfits(configuration, to)).toEqual([]);
        expect(dangling(configuration)).toEqual([]);
      }),
      { numRuns: RUNS },
    );
  });

  it("is still one whatever is decided, and then nothing is left to ask", () => {
    fc.assert(
      fc.property(cases, ({ old, from, to, pick }) => {
        const plan = decide(old, from, to, pick);
        expect(plan.counts.asks).toBe(0);
        expect(misfits(plan.configuration, to)).toEqual([]);
        expect(dangling(plan.configuration)).toEqual([]);
        const claims = plan.items.flatMap((item) => item.claims);
        expect(new Set(claims).size).toBe(plan.values);
      }),
      { numRuns: RUNS },
    );
  });
});
