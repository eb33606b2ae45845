import { describe, expect, it } from "vitest";
import { migrateScreen } from "../../../src/jobs/index.ts";
import { decidedLosses, planMigration } from "../../../src/migrate/plan/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { unitAcoustics } from "../../../src/profile/index.ts";
import { prove } from "../../../src/proof/index.ts";
import type { Draft } from "../../proof/samples.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT } from "./example.ts";
import { room, unitWith } from "./room.ts";

/** A surround channel that two arrays play, the rear one with other filters and 1.8 ms later. */
const old = room(["L", "R", "C", "Ls"], (draft) => {
  const array = draft.outputs[3]!;
  draft.loudspeakers.push({ ...draft.loudspeakers[3]!, id: "speaker-Ls-rear", label: "Rear half" });
  draft.outputs.push({
    ...structuredClone(array),
    id: "out-Ls-rear",
    connectorId: "out-5",
    feeds: { kind: "loudspeaker", loudspeakerId: "speaker-Ls-rear", wayId: "full" },
    filters: [{ id: "f", kind: "peaking", frequencyHz: 1000, gainDb: -4, q: 1 }],
    delayMs: 1.8,
  });
});
const from = unitWith(OLD_UNIT, ["L", "R", "C", "Ls"]);
const small = unitWith(NEW_UNIT, ["L", "R", "C", "Ls"]);
/** One output fewer than are needed. */
const to = {
  ...small,
  connectors: small.connectors.filter(
    ({ direction, id }) => direction !== "output" || ["line-1", "line-2", "line-3", "line-4"].includes(id),
  ),
};

function joinedWith(optionId: string) {
  const answers = [
    ...ANSWERS.map((answer) => ({ ...answer, ifAsked: true })),
    { questionId: "outputs/room-analog", optionId: "join-out-Ls-rear" },
    { questionId: "outputs/*/joinedDelay", optionId },
  ];
  return migrateScreen(old, { from, to, decisions: decisionsWith(answers) });
}

describe("two arrays on one output", () => {
  const { questions } = planMigration(old, { from, to });

  it("are offered with what the other array hears of it: filters, delay, level", () => {
    const option = questions
      .find(({ id }) => id === "outputs/room-analog")!
      .options.find(({ id }) => id === "join-out-Ls-rear")!;
    // The cut of 4 dB at 1 kHz is not there any more.
    expect(option.consequence).toMatch(/up to \+4\.0 dB at 1(\.00)? kHz/u);
    expect(option.consequence).toContain("it had 1.80 ms more delay");
  });

  it("are asked about their delay, the later one proposed for surrounds", () => {
    const question = questions.find(({ id }) => id === "outputs/out-Ls/joinedDelay")!;
    expect(question.options.map(({ id, numbers }) => [id, numbers.delayMs])).toEqual([
      ["keep-own", 0],
      ["as-joined", 1.8],
      ["between", 0.9],
    ]);
    expect(question.options[0]!.consequence).toContain("'Rear half' plays 1.80 ms earlier than before.");
    expect(question.recommended?.optionId).toBe("as-joined");
  });

  it.each([
    ["keep-own", 0],
    ["as-joined", 1.8],
    ["between", 0.9],
  ])("get the delay that was decided (%s), and the proof asks for just that", (optionId, delayMs) => {
    const { plan, proof, unfounded } = joinedWith(optionId);
    const output = plan.configuration.outputs.find(({ id }) => id === "out-Ls")!;
    expect(Math.abs(output.delayMs - delayMs)).toBeLessThan(0.02);
    expect(proof.verdict).not.toBe("differs");
    expect(unfounded).toEqual([]);
    const elsewhere = structuredClone(plan.configuration) as Draft<Configuration>;
    elsewhere.outputs.find(({ id }) => id === "out-Ls")!.delayMs = delayMs === 0 ? 1.8 : 0;
    const wrong = prove(old, elsewhere as Configuration, {
      beforeUnit: unitAcoustics(from, 48000),
      afterUnit: unitAcoustics(to, 48000),
      givenUp: decidedLosses(plan, old),
    });
    expect(wrong.verdict).toBe("differs");
  });
});
