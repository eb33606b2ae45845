import { describe, expect, it } from "vitest";
import { wiringClaims } from "../../../../src/migrate/plan/check/wiring-claims.ts";
import { asWired, decidedLosses, type Plan } from "../../../../src/migrate/plan/index.ts";
import type { Configuration, UnitProfile } from "../../../../src/model/index.ts";
import { unitAcoustics } from "../../../../src/profile/index.ts";
import { prove } from "../../../../src/proof/index.ts";
import { migrateScreen } from "../../../../src/public/boothkeep.ts";
import { changed, type Draft } from "../../../proof/samples.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../example.ts";

const acoustics = (profile: UnitProfile, { unit }: Configuration) => ({
  ...unitAcoustics(profile, unit.sampleRateHz),
  fader: profile.fader,
});

const { plan } = migrateScreen(SCREEN, {
  from: OLD_UNIT,
  to: NEW_UNIT,
  decisions: { ...decisionsWith(ANSWERS), effort: "quick" },
});

/** What check and proof say of a plan. */
function checked(faulty: Plan) {
  const proof = prove(SCREEN, asWired(faulty), {
    beforeUnit: acoustics(OLD_UNIT, SCREEN),
    afterUnit: acoustics(NEW_UNIT, faulty.configuration),
    givenUp: decidedLosses(faulty, SCREEN),
  });
  const exchanged = proof.connectors.filter(({ verdict }) => verdict === "changed").length;
  return { claims: wiringClaims(faulty, proof), exchanged };
}

const withConfiguration = (change: (draft: Draft<Configuration>) => void): Plan => ({
  ...plan,
  configuration: changed(plan.configuration, change),
});

describe("the re-patch sheet against the two documents", () => {
  it("agrees for a plan of ours", () => {
    const { claims, exchanged } = checked(plan);
    expect([claims, exchanged]).toEqual([[], 0]);
  });

  it("does not agree where two inputs are exchanged", () => {
    const { claims, exchanged } = checked(
      withConfiguration(({ sources }) => {
        const [a, b] = sources.find(({ channels }) => channels.length > 1)!.channels;
        [a!.connectorId, b!.connectorId] = [b!.connectorId, a!.connectorId];
      }),
    );
    expect(exchanged).toBe(2);
    expect(claims).toHaveLength(2);
    expect(claims[0]).toMatch(/brings Server, position 1.*has Server, position 2.* there/);
  });

  it("does not agree where two outputs are exchanged", () => {
    const { claims, exchanged } = checked(
      withConfiguration(({ outputs }) => {
        const [a, b] = outputs.filter(({ feeds }) => feeds.kind === "loudspeaker");
        [a!.connectorId, b!.connectorId] = [b!.connectorId, a!.connectorId];
      }),
    );
    expect(exchanged).toBe(2);
    expect(claims).toHaveLength(2);
  });

  it("does not agree where two cables of the sheet are exchanged, or one is forgotten", () => {
    const outputs = plan.cables.filter(({ direction }) => direction === "output");
    const [a, b] = outputs;
    const swapped = plan.cables.map((cable) =>
      cable === a ? { ...cable, to: b!.to } : cable === b ? { ...cable, to: a!.to } : cable,
    );
    expect(checked({ ...plan, cables: swapped }).exchanged).toBe(2);
    expect(checked({ ...plan, cables: swapped }).claims).toHaveLength(2);
    const { claims, exchanged } = checked({ ...plan, cables: plan.cables.filter((cable) => cable !== a) });
    expect(exchanged).toBe(1);
    expect(claims.join(" ")).toContain("the re-patch sheet brings no cable");
  });

  it("does not agree where a contact is exchanged", () => {
    const { exchanged } = checked(
      withConfiguration(({ automation }) => {
        for (const { trigger } of automation)
          if (trigger.kind === "contact") trigger.connectorId = "elsewhere";
      }),
    );
    expect(exchanged).toBe(2);
  });
});
