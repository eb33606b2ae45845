import { describe, expect, it } from "vitest";
import { migrateScreen } from "../../../src/jobs/index.ts";
import { decidedLosses, planMigration } from "../../../src/migrate/plan/index.ts";
import type { ChannelLabel, Configuration, UnitProfile } from "../../../src/model/index.ts";
import { unitAcoustics } from "../../../src/profile/index.ts";
import { prove } from "../../../src/proof/index.ts";
import type { Draft } from "../../proof/samples.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT } from "./example.ts";
import { room, unitWith } from "./room.ts";

function migrate(old: Configuration, has: readonly ChannelLabel[], optionId?: string) {
  const from = unitWith(
    OLD_UNIT,
    old.channels.map(({ label }) => label),
  );
  const to = unitWith(NEW_UNIT, has);
  const asked = planMigration(old, { from, to }).questions.find(({ id }) => id.startsWith("channels/"))!;
  const chosen = optionId ?? asked.recommended!.optionId;
  const decisions = decisionsWith([
    ...ANSWERS.map((answer) => ({ ...answer, ifAsked: true })),
    { questionId: asked.id, optionId: chosen },
  ]);
  return { asked, migration: migrateScreen(old, { from, to, decisions }), from, to };
}

/** The proof of a configuration in which somebody changed something after it was planned. */
function proveFaulty(
  old: Configuration,
  faulty: Draft<Configuration>,
  { plan }: ReturnType<typeof migrate>["migration"],
  { from, to }: { readonly from: UnitProfile; readonly to: UnitProfile },
) {
  return prove(old, faulty as Configuration, {
    beforeUnit: unitAcoustics(from, old.unit.sampleRateHz),
    afterUnit: unitAcoustics(to, old.unit.sampleRateHz),
    givenUp: decidedLosses(plan, old),
  });
}

const verdicts = ({ proof }: ReturnType<typeof migrate>["migration"]) => proof.counts;

describe("a screen channel that the unit lacks", () => {
  const old = room(["L", "C", "R", "Lc"]);

  it("can be played between its neighbours, as loud at the seats as before, and its outputs serve others", () => {
    const { asked, migration } = migrate(old, ["L", "C", "R"]);
    expect(asked.options.map(({ id }) => id)).toEqual(["play-between-L-and-C", "leave-out"]);
    expect(asked.options[0]!.consequence).toContain("1 output is set free");
    expect(asked.options[1]!.consequence).toContain("'Feature stereo'");
    const { configuration } = migration.plan;
    expect(configuration.outputs.map(({ id }) => id)).toEqual(["out-L", "out-C", "out-R"]);
    const shares = configuration.presets[0]!.routing.filter(
      ({ sourceChannelId }) => sourceChannelId === "in-Lc",
    );
    // -3.01 dB each, and 0.6 dB since it was measured as much lower than its neighbours; on steps of 0.5 dB.
    expect(shares.map(({ channelId, gainDb }) => [channelId, gainDb])).toEqual([
      ["L", -3.5],
      ["C", -3.5],
    ]);
    expect(verdicts(migration)).toMatchObject({ audible: 0, missing: 0, new: 0 });
    expect(migration.proof.verdict).not.toBe("differs");
    expect(migration.unfounded).toEqual([]);
  });

  it("adds up in phase where a preset sends the same to a neighbour already", () => {
    const both = room(["L", "C", "R", "Lc"], (draft) => {
      draft.presets[0]!.routing.push({ id: "extra", sourceChannelId: "in-Lc", channelId: "L", gainDb: -6 });
    });
    const { migration } = migrate(both, ["L", "C", "R"]);
    const extra = migration.plan.configuration.presets[0]!.routing.find(({ id }) => id === "extra")!;
    // 20 lg (10^(-6/20) + 10^(-3.61/20)) = 1.30 dB
    expect(extra.gainDb).toBe(1.5);
    expect(migration.unfounded).toEqual([]);
  });

  it("can be left out: then it is given up, and nothing else", () => {
    const { migration } = migrate(old, ["L", "C", "R"], "leave-out");
    expect(verdicts(migration)).toMatchObject({
      leftOut: 1,
      changedByDecision: 0,
      audible: 0,
      missing: 0,
      new: 0,
    });
  });

  it("is not called as loud as before when it is not", () => {
    const { migration, from, to } = migrate(old, ["L", "C", "R"]);
    const faulty = structuredClone(migration.plan.configuration) as Draft<Configuration>;
    for (const route of faulty.presets[0]!.routing) if (route.sourceChannelId === "in-Lc") route.gainDb = 0;
    const proof = proveFaulty(old, faulty, migration, { from, to });
    expect(proof.verdict).toBe("differs");
  });
});

describe("side and rear surround channels on a unit with one pair", () => {
  const old = room(["L", "R", "C", "Lss", "Lrs"]);

  it("say how far the one equalizer is from the other, and stay as loud at the seats", () => {
    const { asked, migration } = migrate(old, ["L", "R", "C", "Ls"]);
    // Peaks of 1 dB and 2 dB at 1 kHz.
    expect(asked.options[0]!.consequence).toMatch(/That of Lrs differed by up to 0\.\d dB rms, 1\.0 dB at/u);
    expect(asked.options[0]!.numbers.equalizerRmsDb).toBeGreaterThan(0.1);
    expect(migration.proof.verdict).not.toBe("differs");
    const seats = migration.proof.groups.flatMap(({ deviation }) => deviation?.seatsDb ?? []);
    expect(seats.length).toBeGreaterThan(0);
    for (const db of seats) expect(Math.abs(db)).toBeLessThanOrEqual(0.5);
    const rear = migration.proof.groups.find(({ paths }) =>
      paths.some(({ feedId }) => feedId === "speaker-Lrs/full"),
    )!;
    expect(rear.verdict).toBe("changed-by-decision");
  });

  it("have to keep the equalizer that was said to stay", () => {
    const { migration, from, to } = migrate(old, ["L", "R", "C", "Ls"]);
    const faulty = structuredClone(migration.plan.configuration) as Draft<Configuration>;
    const surround = faulty.equalizations[0]!.channels.find(({ channelId }) => channelId === "Lss")!;
    surround.parametric = [{ id: "b1", kind: "peaking", frequencyHz: 1000, gainDb: 6, q: 1 }];
    expect(proveFaulty(old, faulty, migration, { from, to }).verdict).toBe("differs");
  });
});
