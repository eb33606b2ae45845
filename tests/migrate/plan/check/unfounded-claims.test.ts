import { describe, expect, it } from "vitest";
import { unfoundedClaims } from "../../../../src/migrate/plan/index.ts";
import { migrateScreen, type UnitProfile } from "../../../../src/public/boothkeep.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../example.ts";

/** Another grid of frequencies and no shelves: every equalizer has to be fitted. */
const to: UnitProfile = {
  ...NEW_UNIT,
  equalizations: {
    ...NEW_UNIT.equalizations,
    parametric: {
      ...NEW_UNIT.equalizations.parametric!,
      kinds: ["peaking"],
      frequencyHz: { kind: "log", min: 20, max: 20000, referenceHz: 1000, perOctave: 12 },
    },
  },
};

describe("what a plan says of itself", () => {
  const { plan, proof } = migrateScreen(SCREEN, {
    from: OLD_UNIT,
    to,
    decisions: { ...decisionsWith(ANSWERS), effort: "quick" },
  });
  const units = { from: OLD_UNIT, to, proof };

  it("is borne out by the documents", () => {
    expect(plan.equalizers.some(({ method }) => method === "refitted")).toBe(true);
    expect(unfoundedClaims(plan, SCREEN, units)).toEqual([]);
  });

  it("is told where it is not: an error of an equalizer, a filter that is not what was fitted, a delay", () => {
    const modest = {
      ...plan,
      equalizers: plan.equalizers.map((claim) => ({ ...claim, rmsDb: 0, maxDb: 0 })),
    };
    expect(unfoundedClaims(modest, SCREEN, units).join(" ")).toContain("EQ set 'Film', channel L");
    const [set, ...others] = plan.configuration.equalizations;
    const wrong = {
      ...plan,
      configuration: {
        ...plan.configuration,
        equalizations: [
          {
            ...set!,
            channels: set!.channels.map((channel) => ({
              ...channel,
              parametric: (channel.parametric ?? []).map((band) =>
                "gainDb" in band ? { ...band, gainDb: -band.gainDb } : band,
              ),
            })),
          },
          ...others,
        ],
      },
    };
    expect(unfoundedClaims(wrong, SCREEN, units).length).toBeGreaterThan(0);
    const late = { ...proof, commonDelayMs: plan.delays.largest + 1 };
    expect(unfoundedClaims(plan, SCREEN, { ...units, proof: late })).toHaveLength(1);
  });
});
