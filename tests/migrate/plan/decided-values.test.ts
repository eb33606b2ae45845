import { describe, expect, it } from "vitest";
import { migrateScreen, type ScreenMigration } from "../../../src/jobs/index.ts";
import { decidedLosses, planMigration } from "../../../src/migrate/plan/index.ts";
import type {
  Configuration,
  Crossover,
  DecisionAnswer,
  Limiter,
  UnitProfile,
} from "../../../src/model/index.ts";
import { unitAcoustics } from "../../../src/profile/index.ts";
import { prove } from "../../../src/proof/index.ts";
import type { Draft } from "../../proof/samples.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "./example.ts";

const FAMILIES = ["butterworth", "bessel", "linkwitz-riley"] as const;

/** A unit like the old one under another name. */
const LIKE_OLD: UnitProfile = { ...OLD_UNIT, id: NEW_UNIT.id, firmwareRange: NEW_UNIT.firmwareRange };

/** A unit that has just one family of filters. */
function only(family: (typeof FAMILIES)[number], orders: readonly number[]): UnitProfile {
  const ability = {
    ...NEW_UNIT.outputs.highPass,
    families: [
      { family, orders: [...orders], ...(family === "bessel" && { normalization: "phase" as const }) },
    ],
  };
  return {
    ...LIKE_OLD,
    outputs: { ...OLD_UNIT.outputs, highPass: ability, lowPass: ability },
  };
}

function answersFor(
  to: UnitProfile,
  screen: Configuration,
  choose: (optionIds: readonly string[]) => string,
) {
  const asked = planMigration(screen, { from: OLD_UNIT, to }).questions;
  const own = new Set(ANSWERS.map(({ questionId }) => questionId));
  return [
    ...ANSWERS.map((answer) => ({ ...answer, ifAsked: true })),
    ...asked
      .filter(({ id }) => !own.has(id))
      .map(({ id, options }): DecisionAnswer => {
        const optionId = choose(options.map((option) => option.id));
        const weakens = options.find((option) => option.id === optionId)?.weakensProtection === true;
        return { questionId: id, optionId, ...(weakens && { accepts: "weaker-protection" as const }) };
      }),
  ];
}

function migrated(to: UnitProfile, screen: Configuration, choose: (ids: readonly string[]) => string) {
  return migrateScreen(screen, {
    from: OLD_UNIT,
    to,
    decisions: decisionsWith(answersFor(to, screen, choose)),
  });
}

/** The proof of the planned configuration with a fault planted into it, by the decisions of the plan. */
function provenWith(
  { plan }: ScreenMigration,
  {
    to,
    screen,
    fault,
  }: { to: UnitProfile; screen: Configuration; fault: (draft: Draft<Configuration>) => void },
) {
  const faulty = structuredClone(plan.configuration) as Draft<Configuration>;
  fault(faulty);
  const after = faulty as Configuration;
  return prove(screen, after, {
    beforeUnit: unitAcoustics(OLD_UNIT, screen.unit.sampleRateHz),
    afterUnit: unitAcoustics(to, after.unit.sampleRateHz),
    givenUp: decidedLosses({ ...plan, configuration: after }, screen),
  });
}

const first = (ids: readonly string[]) => ids[0]!;

describe("filters that were chosen on a unit which lacks the old ones", () => {
  it.each(FAMILIES.flatMap((family) => [[2], [4], [4, 8]].map((orders) => [family, orders] as const)))(
    "are proven as chosen, with or without weaker protection: %s %j",
    (family, orders) => {
      const to = only(family, orders);
      const { proof, plan } = migrated(to, SCREEN, first);
      expect(plan.decided).toBe(true);
      const halves = proof.settings.filter(({ setting }) => setting.endsWith("-pass"));
      for (const { verdict } of halves)
        expect(["within-tolerance", "changed-by-decision"]).toContain(verdict);
      // What the proof calls weaker has to be asked about as such.
      for (const { id, answer, options } of plan.questions) {
        if (!id.endsWith("/highPass")) continue;
        const option = options.find((candidate) => candidate.id === answer!.optionId)!;
        expect(answer!.accepts === "weaker-protection").toBe(option.weakensProtection === true);
      }
    },
  );

  it.each<[string, (half: Crossover) => Crossover | undefined]>([
    ["removed", () => undefined],
    ["an octave lower", (half) => ({ ...half, frequencyHz: half.frequencyHz / 2 })],
    ["of the second order", (half) => ({ ...half, order: 2 })],
  ])("are not proven when a high-pass is %s afterwards", (_, change) => {
    const to = only("linkwitz-riley", [4, 8]);
    const migration = migrated(to, SCREEN, first);
    expect(migration.proof.verdict).not.toBe("differs");
    const asked = migration.plan.questions.filter(({ id }) => id.endsWith("/highPass"));
    expect(asked.length).toBeGreaterThan(0);
    for (const { id } of asked) {
      const outputId = id.split("/")[1];
      const proof = provenWith(migration, {
        to,
        screen: SCREEN,
        fault: ({ outputs }) => {
          const output = outputs.find((candidate) => candidate.id === outputId)!;
          const now = change(output.highPass!);
          if (now === undefined) delete output.highPass;
          else output.highPass = { ...now };
        },
      });
      expect(proof.verdict).toBe("differs");
    }
  });
});

describe("limiters that were chosen on a unit which lacks the old values", () => {
  const COARSE: UnitProfile = {
    ...LIKE_OLD,
    outputs: {
      ...OLD_UNIT.outputs,
      limiter: {
        thresholdDbfs: { kind: "list", values: [-30, -20, -10] },
        attackMs: { kind: "list", values: [1, 10, 100] },
        releaseMs: { kind: "list", values: [100, 1000] },
      },
    },
  } as UnitProfile;

  it.each<[string, (limiter: Limiter) => Limiter | undefined]>([
    ["removed", () => undefined],
    ["switched off", (limiter) => ({ ...limiter, enabled: false })],
    ["at 0 dBFS", (limiter) => ({ ...limiter, thresholdDbfs: 0 })],
  ])("are not proven when they are %s afterwards", (_, change) => {
    const migration = migrated(COARSE, SCREEN, first);
    const outputIds = migration.plan.questions
      .filter(({ id }) => id.endsWith("/limiter"))
      .map(({ id }) => id.split("/")[1]);
    expect(outputIds.length).toBeGreaterThan(0);
    const settings = migration.proof.settings.filter(({ setting }) => setting === "limiter");
    expect(new Set(settings.map(({ verdict }) => verdict))).toEqual(new Set(["changed-by-decision"]));
    const proof = provenWith(migration, {
      to: COARSE,
      screen: SCREEN,
      fault: ({ outputs }) => {
        for (const output of outputs) {
          if (!outputIds.includes(output.id)) continue;
          const now = change(output.limiter!);
          if (now === undefined) delete output.limiter;
          else output.limiter = { ...now };
        }
      },
    });
    expect(proof.verdict).toBe("differs");
    expect(proof.settings.filter(({ verdict }) => verdict === "weaker" || verdict === "lost")).toHaveLength(
      outputIds.length,
    );
  });
});

describe("an FIR filter that the unit cannot run", () => {
  const screen = structuredClone(SCREEN) as Draft<Configuration>;
  const hf = screen.outputs.find(({ id }) => id === "left-hf")!;
  hf.fir = { taps: [0.1, 0.2, 0.4, 0.2, 0.1] };
  const to: UnitProfile = { ...LIKE_OLD, outputs: { ...OLD_UNIT.outputs, firTapsMax: 0 } };

  it("is left out by decision; 6 dB more beside it is not", () => {
    const migration = migrated(to, screen as Configuration, first);
    expect(migration.proof.settings.map(({ setting, verdict }) => [setting, verdict])).toContainEqual([
      "fir",
      "left-out",
    ]);
    expect(migration.proof.verdict).not.toBe("differs");
    const proof = provenWith(migration, {
      to,
      screen: screen as Configuration,
      fault: ({ outputs }) => {
        outputs.find(({ id }) => id === "left-hf")!.gainDb += 6;
      },
    });
    expect(proof.verdict).toBe("differs");
  });
});
