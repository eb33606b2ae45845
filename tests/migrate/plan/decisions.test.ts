import { describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  decidedLosses,
  decisionsToFillIn,
  planMigration,
  rulingOut,
} from "../../../src/migrate/plan/index.ts";
import { type Decisions, readDocument } from "../../../src/model/index.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "./example.ts";

const units = { from: OLD_UNIT, to: NEW_UNIT };
const LIMITERLESS = (() => {
  const { limiter: _limiter, ...outputs } = NEW_UNIT.outputs;
  return { ...NEW_UNIT, outputs };
})();

function refusal(decisions: Decisions, to = NEW_UNIT): Pick<BoothkeepError, "code" | "message" | "next"> {
  try {
    planMigration(SCREEN, { ...units, to, decisions });
  } catch (error) {
    if (error instanceof BoothkeepError) return error;
    throw error;
  }
  return { code: "none" as BoothkeepError["code"], message: "", next: "" };
}

describe("decisions", () => {
  it("close every question, also by a star", () => {
    const open = planMigration(SCREEN, units);
    expect(open.decided).toBe(false);
    const plan = planMigration(SCREEN, { ...units, decisions: decisionsWith(ANSWERS) });
    expect(plan.decided).toBe(true);
    expect(plan.counts.asks).toBe(0);
    expect(plan.configuration.unit).toMatchObject({ profileId: "new-8", serial: "N8-7", firmware: "3.1.0" });
  });

  it("are refused when they name an unknown question, and say which are asked", () => {
    const { code, next } = refusal(
      decisionsWith([...ANSWERS, { questionId: "presets/cuont", optionId: "x" }]),
    );
    expect(code).toBe("decisions.unknown-question");
    expect(next).toContain("unit/serial");
  });

  it("may answer what is not asked here, when they say so", () => {
    const extra = { questionId: "presets/count", optionId: "as-proposed", ifAsked: true };
    expect(refusal(decisionsWith([...ANSWERS, extra])).code).toBe("none");
  });

  it.each([
    ["an unknown option", { questionId: "unit/serial", optionId: "guess" }, "decisions.unknown-option"],
    ["a missing text", { questionId: "unit/serial", optionId: "as-on-plate" }, "decisions.unfit-answer"],
    [
      "a firmware that the profile does not cover",
      { questionId: "unit/firmware", optionId: "as-shown", text: "9.0.0" },
      "decisions.unfit-answer",
    ],
  ])("are refused for %s", (_, answer, code) => {
    expect(refusal(decisionsWith([answer])).code).toBe(code);
  });

  it("are refused when one question is answered twice", () => {
    expect(refusal(decisionsWith([...ANSWERS, ANSWERS[0]!])).code).toBe("decisions.answered-twice");
  });

  it("are refused for other units", () => {
    expect(refusal({ ...decisionsWith(ANSWERS), toProfileId: "other" }).code).toBe("decisions.other-units");
  });

  it("have to accept weaker protection in so many words", () => {
    const weaker = { questionId: "outputs/*/limiter", optionId: "limiter-elsewhere" };
    expect(refusal(decisionsWith([...ANSWERS, weaker]), LIMITERLESS).code).toBe("decisions.not-accepted");
    const accepted = decisionsWith([...ANSWERS, { ...weaker, accepts: "weaker-protection" }]);
    const plan = planMigration(SCREEN, { ...units, to: LIMITERLESS, decisions: accepted });
    expect(plan.configuration.outputs.every(({ limiter, mute }) => limiter === undefined && !mute)).toBe(
      true,
    );
    expect(decidedLosses(plan, SCREEN)).toContainEqual({
      kind: "setting",
      setting: "limiter",
      feedId: "left/hf",
      decided: null,
      accepts: "weaker-protection",
    });
  });

  it("obey pins, bans and names", () => {
    const decisions = decisionsWith(ANSWERS.slice(0, 2), {
      connectors: [{ item: "outputs/left-lf", rule: "on", connectorId: "line-8" }],
      labels: [{ address: "presets/feature/label", label: "Film" }],
    });
    const { configuration } = planMigration(SCREEN, { ...units, decisions });
    expect(configuration.outputs.find(({ id }) => id === "left-lf")?.connectorId).toBe("line-8");
    expect(configuration.presets[0]?.label).toBe("Film");
  });

  it("refuse a name that the unit cannot show", () => {
    const decisions = decisionsWith(ANSWERS, {
      labels: [{ address: "presets/feature/label", label: "Far too long for it" }],
    });
    expect(refusal(decisions).code).toBe("decisions.unfit-answer");
  });

  it("come as a file to fill in, which fits its schema and keeps what was answered", () => {
    const first = decisionsWith(ANSWERS.slice(0, 1));
    const plan = planMigration(SCREEN, { ...units, decisions: first });
    const file = decisionsToFillIn(plan, { earlier: first });
    const read = readDocument(JSON.stringify(file), { expect: "boothkeep.decisions" }).document;
    const open = plan.questions.filter(({ answer }) => answer === undefined).map(({ id }) => id);
    expect(read.answers.map(({ questionId }) => questionId)).toEqual([...open, "unit/serial"]);
    expect(read.answers.slice(0, open.length).every(({ optionId }) => optionId === null)).toBe(true);
    expect(read.answers.at(-1)).toMatchObject({ optionId: "as-on-plate", text: "N8-7" });
    // What is not decided yet is no answer.
    const again = planMigration(SCREEN, { ...units, decisions: read });
    expect(again.questions.filter(({ answer }) => answer !== undefined)).toHaveLength(1);
  });

  it("keep stars, acceptances and answers for other screens in a file to fill in", () => {
    const given: Decisions["answers"] = [
      { questionId: "outputs/*/limiter", optionId: "limiter-elsewhere", accepts: "weaker-protection" },
      { questionId: "channels/Lss", optionId: "leave-out", ifAsked: true },
    ];
    const to = LIMITERLESS;
    const plan = planMigration(SCREEN, { ...units, to, decisions: decisionsWith(given) });
    const filled = decisionsToFillIn(plan, { earlier: decisionsWith(given), asRecommended: true });
    expect(filled.answers.slice(-2)).toEqual(given);
    // What needs a text is never filled in; what is recommended is.
    const answers = new Map(filled.answers.map(({ questionId, optionId }) => [questionId, optionId]));
    expect(answers.get("unit/serial")).toBeNull();
    expect(answers.get("labels/presets")).toBe("as-proposed");
    const again = planMigration(SCREEN, { ...units, to, decisions: filled });
    expect(again.questions.filter(({ answer }) => answer === undefined).map(({ id }) => id)).toEqual([
      "unit/serial",
      "unit/firmware",
    ]);
  });

  it("are told all at once where they do not fit, and what was meant", () => {
    const wrong = refusal(
      decisionsWith([
        { questionId: "unit/serial", optionId: "as-on-plate" },
        { questionId: "unit/firmware", optionId: "as-i-like" },
      ]),
    );
    expect(wrong.code).toBe("decisions.unfit-answer");
    expect(wrong.message).toContain("2 answers do not fit");
    expect(wrong.next).toContain("Then see to unit/firmware.");
    expect(refusal(decisionsWith([{ questionId: "unit/sireal", optionId: "x" }])).next).toContain(
      "Did you mean 'unit/serial'?",
    );
  });

  it("rule the unit out by one answer, whatever else is decided", () => {
    const mute = { ...NEW_UNIT, operation: { ...NEW_UNIT.operation, emergencyMute: false } };
    const answers: Decisions["answers"] = [
      ...ANSWERS,
      { questionId: "operation/emergencyMute", optionId: "not-this-unit" },
    ];
    const plan = planMigration(SCREEN, { ...units, to: mute, decisions: decisionsWith(answers) });
    expect(plan.questions.every(({ answer }) => answer !== undefined)).toBe(true);
    expect(plan.decided).toBe(false);
    expect(rulingOut(plan.questions).map(({ id }) => id)).toEqual(["operation/emergencyMute"]);
    expect(decidedLosses(plan, SCREEN)).toEqual([]);
  });

  it("excuse nothing in the proof while some are missing", () => {
    expect(decidedLosses(planMigration(SCREEN, { ...units, to: LIMITERLESS }), SCREEN)).toEqual([]);
  });
});

describe("the plan as a document", () => {
  it("fits its schema", () => {
    const plan = planMigration(SCREEN, { ...units, decisions: decisionsWith(ANSWERS) });
    expect(readDocument(JSON.stringify(plan), { expect: "boothkeep.plan" }).document).toEqual(
      JSON.parse(JSON.stringify(plan)),
    );
  });

  it("is refused for a configuration of another unit", () => {
    expect(() => planMigration(SCREEN, { from: NEW_UNIT, to: OLD_UNIT })).toThrow("was made for 'old-8'");
    const lost = { ...OLD_UNIT, connectors: OLD_UNIT.connectors.slice(1) };
    expect(() => planMigration(SCREEN, { from: lost, to: NEW_UNIT })).toThrow("connector 'digital-1'");
  });
});
