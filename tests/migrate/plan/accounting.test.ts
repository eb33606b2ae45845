import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Plan, planMigration } from "../../../src/migrate/plan/index.ts";
import { type Configuration, leavesOf, type UnitProfile } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { configurations, oldProfiles, profiles } from "./arbitraries.ts";
import { NO_FITS } from "./decide.ts";

const RUNS = runs(40, 2000);

interface Case {
  readonly old: Configuration;
  readonly from: UnitProfile;
  readonly to: UnitProfile;
}

const cases: fc.Arbitrary<Case> = fc.record({ old: configurations, from: oldProfiles, to: profiles("new") });

describe("the accounts of a plan", () => {
  it("claim every value exactly once, call kept only what is the same, and ask about all that is open", () => {
    fc.assert(
      fc.property(cases, ({ old, from, to }) => {
        const plan = planMigration(old, { from, to, eqFits: NO_FITS });
        expectAccounts(plan, old);
        expectQuestions(plan);
      }),
      { numRuns: RUNS },
    );
  });
});

function expectAccounts(plan: Plan, old: Configuration): void {
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
}

/** Nothing is open that was not asked about, nothing asked about that is decided. */
function expectQuestions(plan: Plan): void {
  const ids = plan.questions.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const asking = new Set(plan.items.flatMap((item) => (item.outcome === "asks" ? item.questionId : [])));
  for (const id of asking) expect(ids).toContain(id);
  expect(plan.decided).toBe(ids.length === 0);
  for (const question of plan.questions) {
    const options = question.options.map(({ id }) => id);
    expect(new Set(options).size).toBe(options.length);
    expect(options).toContain(question.unanswered.optionId);
    for (const option of question.options) expect(option.consequence).not.toBe("");
    if (question.recommended === undefined) continue;
    expect(options).toContain(question.recommended.optionId);
    const recommended = question.options.find(({ id }) => id === question.recommended!.optionId);
    expect(recommended?.weakensProtection).not.toBe(true);
    const unanswered = question.options.find(({ id }) => id === question.unanswered.optionId);
    expect(unanswered?.weakensProtection).not.toBe(true);
  }
}
