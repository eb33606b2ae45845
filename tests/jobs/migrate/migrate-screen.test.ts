import { describe, expect, it } from "vitest";
import {
  type Configuration,
  migrateScreen,
  type UnitProfile,
  validateConfiguration,
} from "../../../src/public/boothkeep.ts";
import { planMigration } from "../../../src/public/migrate.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../../migrate/plan/example.ts";

/** Takes the old unit's settings as they are, so that nothing that is heard is lost. */
const alike: UnitProfile = {
  ...OLD_UNIT,
  id: NEW_UNIT.id,
  label: NEW_UNIT.label,
  firmwareRange: NEW_UNIT.firmwareRange,
};
const decisions = decisionsWith(ANSWERS.slice(0, 2));

describe("migrateScreen", () => {
  it("is ready when all is decided, the proof holds and the check finds no error", () => {
    const { state, plan, proof, errors } = migrateScreen(SCREEN, { from: OLD_UNIT, to: alike, decisions });
    expect(state).toBe("ready");
    expect(plan).toEqual(planMigration(SCREEN, { from: OLD_UNIT, to: alike, decisions }));
    expect(proof.verdict).not.toBe("differs");
    expect(errors).toEqual([]);
    const findings = validateConfiguration(plan.configuration, { profile: alike });
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });

  it("misses decisions while the plan asks, whatever the proof says", () => {
    const { state, plan } = migrateScreen(SCREEN, { from: OLD_UNIT, to: alike });
    expect(plan.questions.some(({ answer }) => answer === undefined)).toBe(true);
    expect(state).toBe("decisions-missing");
  });

  it("is ruled out, and never ready, where an answer says that the unit is not to be used", () => {
    const mute = { ...alike, operation: { ...alike.operation, emergencyMute: false } };
    const answers = [
      ...ANSWERS.slice(0, 2),
      { questionId: "operation/emergencyMute", optionId: "not-this-unit" },
    ];
    const { state, plan } = migrateScreen(SCREEN, {
      from: OLD_UNIT,
      to: mute,
      decisions: decisionsWith(answers),
    });
    expect(state).toBe("ruled-out");
    expect(plan.decided).toBe(false);
  });

  it("differs where the new unit's steps are too coarse for the proof's tolerances", () => {
    const all = decisionsWith(ANSWERS);
    const { state, plan, proof } = migrateScreen(SCREEN, { from: OLD_UNIT, to: NEW_UNIT, decisions: all });
    expect(plan.decided).toBe(true);
    expect(proof.verdict).toBe("differs");
    expect(state).toBe("differs");
  });

  it("differs where the check finds an error that the old unit had too, though it sounds the same", () => {
    const [lf, ...others] = SCREEN.outputs;
    const wired: Configuration = { ...SCREEN, outputs: [{ ...lf!, polarity: "inverted" }, ...others] };
    const { state, proof, errors } = migrateScreen(wired, { from: OLD_UNIT, to: alike, decisions });
    expect(proof.verdict).toBe("equal");
    expect(errors.map(({ code }) => code)).toEqual(["crossover/wrong-polarity"]);
    expect(state).toBe("differs");
  });
});
