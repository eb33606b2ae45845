import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leavesOf, planMigration } from "../../src/migrate/index.ts";
import type { Configuration, UnitProfile } from "../../src/model/index.ts";
import { runs } from "../runs.ts";
import { configurations, oldProfiles, profiles } from "./arbitraries.ts";
import { NO_FITS } from "./decide.ts";

const RUNS = runs(25, 400);

interface Case {
  readonly old: Configuration;
  readonly from: UnitProfile;
  readonly to: UnitProfile;
}

const cases: fc.Arbitrary<Case> = fc.record({ old: configurations, from: oldProfiles, to: profiles("new") });

describe("the accounts of a plan", () => {
  it("claim every value exactly once, and call kept only what is the same", () => {
    fc.assert(
      fc.property(cases, ({ old, from, to }) => {
        const plan = planMigration(old, { from, to, eqFits: NO_FITS });
        const before = leavesOf(old);
        const claims = plan.items.flatMap((item) => item.claims);
        expect(new Set(claims).size).toBe(claims.length);
        expect([...claims].sort()).toEqual([...before.keys()].sort());
        const { kept, rounded, refitted, moved, restaged, asks, lost } = plan.counts;
        expect(kept + rounded + refitted + moved + restaged + asks + lost).toBe(plan.values);
        expect(plan.items.filter(({ step }) => step === "remainder")).toEqual([]);
        expect(new Set(plan.items.map(({ id }) => id)).size).toBe(plan.items.length);
        expect(new Set(plan.cables.map(({ id }) => id)).size).toBe(plan.cables.length);

        const after = leavesOf(plan.configuration);
        const wronglyKept = plan.items
          .filter(({ outcome }) => outcome === "kept")
          .flatMap((item) => item.claims)
          .filter((address) => after.get(address) !== before.get(address));
        expect(wronglyKept).toEqual([]);
      }),
      { numRuns: RUNS },
    );
  });

  it("leave nothing open that was asked about and nothing asked about that is decided", () => {
    fc.assert(
      fc.property(cases, ({ old, from, to }) => {
        const open = planMigration(old, { from, to, eqFits: NO_FITS });
        const ids = open.questions.map(({ id }) => id);
        expect(new Set(ids).size).toBe(ids.length);
        const asking = new Set(
          open.items.flatMap((item) => (item.outcome === "asks" ? item.questionId : [])),
        );
        for (const id of asking) expect(ids).toContain(id);
        expect(open.decided).toBe(ids.length === 0);
        for (const question of open.questions) {
          const options = question.options.map(({ id }) => id);
          expect(options).toContain(question.unanswered.optionId);
          if (question.recommended === undefined) continue;
          expect(options).toContain(question.recommended.optionId);
          const recommended = question.options.find(({ id }) => id === question.recommended!.optionId);
          expect(recommended?.weakensProtection).not.toBe(true);
          const unanswered = question.options.find(({ id }) => id === question.unanswered.optionId);
          expect(unanswered?.weakensProtection).not.toBe(true);
        }
      }),
      { numRuns: RUNS },
    );
  });
});
