import { describe, expect, it } from "vitest";
import { validateConfiguration, validateSite } from "../../src/rules/index.ts";
import { CONFIGURATIONS, profileOf, SCREENS } from "./all-samples.ts";

/** A fortnight after the last alignment. */
const today = "2026-04-01";

describe("the rules", () => {
  it.each(SCREENS)("find nothing on %s as left", (_, configuration) => {
    const findings = validateConfiguration(configuration, { profile: profileOf(configuration), today });
    expect(findings.map(({ code, words }) => `${code}: ${words}`)).toEqual([]);
  });

  it("find nothing between the screens of a site", () => {
    expect(validateSite(SCREENS.map(([, configuration]) => configuration))).toEqual([]);
  });

  it("find the lowered high-pass of the autumn visit", () => {
    const visit = CONFIGURATIONS.find(([name]) => name === "visits/lantern-mill/screen-1-autumn.json")![1];
    const codes = validateConfiguration(visit, { profile: profileOf(visit), today }).map(({ code }) => code);
    expect(codes).toContain("crossover/high-pass-below-safe");
  });
});
