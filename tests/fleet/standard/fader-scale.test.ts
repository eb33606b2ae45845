import { describe, expect, it } from "vitest";
import { applyStandard, deviationsFrom, unitSteps } from "../../../src/fleet/standard/index.ts";
import { DriftJob } from "../../../src/jobs/index.ts";
import type { StandardLine } from "../../../src/model/index.ts";
import { faderLevelDb } from "../../../src/profile/index.ts";
import {
  compiledOf,
  edited,
  largeProfile,
  largeScreen,
  mediumProfile,
  mediumScreen,
  smallProfile,
  smallScreen,
} from "./support.ts";

/*
 * The scales of the sample units: 0 dB is mark 80 of 100, 45 of 60, and 0 on a scale in decibels. A mark says nothing
 * without its scale.
 */

const START: StandardLine = { place: "operation/faderMark", hold: "exactly", value: 80 };
const scale = { faderScale: largeProfile.fader.marks };
const on = [
  [largeScreen, largeProfile, 80],
  [smallScreen, smallProfile, 45],
  [mediumScreen, mediumProfile, 0],
] as const;

describe("fader marks of a standard that states its scale", () => {
  it.each(on)("are the unit's marks of the same level", (screen, profile, mark) => {
    const standard = compiledOf([START], "1.0.0", scale);
    expect(faderLevelDb(profile.fader, mark)).toBe(0);
    const following = edited(screen, (draft) => {
      draft.operation.faderMark = mark;
    });
    expect(deviationsFrom(following, standard, unitSteps(following, profile))).toEqual([]);
    const off = edited(screen, (draft) => {
      draft.operation.faderMark = mark - 3;
    });
    const before = compiledOf([{ ...START, value: 40 }], "1.0.0", scale);
    const [step] = applyStandard(off, { standard, followed: before, profile }).steps;
    expect(step).toMatchObject({ outcome: "asks", standard: 80, screen: mark - 3 });
  });

  it("are taken at the level where only the standard changed, and say so", () => {
    const standard = compiledOf([{ ...START, value: 70 }], "2.0.0", scale);
    const followed = compiledOf([START], "1.0.0", scale);
    // Mark 70 of the large unit is −6 dB: 24 dB over 40 marks; the small one has 30 dB over 30 marks below mark 45.
    const { configuration, steps } = applyStandard(smallScreen, {
      standard,
      followed,
      profile: smallProfile,
    });
    expect(faderLevelDb(largeProfile.fader, 70)).toBeCloseTo(-6, 9);
    expect(configuration.operation.faderMark).toBe(39);
    expect(faderLevelDb(smallProfile.fader, 39)).toBeCloseTo(-6, 9);
    expect(steps).toMatchObject([{ outcome: "taken", standard: 70, result: 39 }]);
    expect(steps[0]!.why).toContain("mark 70 is −6.0 dB, here 39 (−6.0 dB)");
    expect(applyStandard(configuration, { standard, followed, profile: smallProfile }).steps).toEqual([]);
  });

  it("are rounded to the unit's nearest mark", () => {
    const standard = compiledOf([{ ...START, value: 79 }], "2.0.0", scale);
    const followed = compiledOf([START], "1.0.0", scale);
    const { configuration, steps } = applyStandard(smallScreen, {
      standard,
      followed,
      profile: smallProfile,
    });
    // −0.6 dB is mark 44.4.
    expect(steps).toMatchObject([{ outcome: "rounded", result: 44 }]);
    expect(deviationsFrom(configuration, standard, unitSteps(configuration, smallProfile))).toEqual([]);
  });

  it("are asked about where the unit does not reach the level", () => {
    const loud = {
      faderScale: [
        { mark: 0, levelDb: -90 },
        { mark: 100, levelDb: 30 },
      ],
    };
    const standard = compiledOf([{ ...START, value: 100 }], "2.0.0", loud);
    const [step] = applyStandard(smallScreen, { standard, profile: smallProfile }).steps;
    expect(step).toMatchObject({ outcome: "asks", standard: 100, nearest: 60 });
  });

  it("count as changed when the same number is meant on another scale", () => {
    const own = compiledOf([{ ...START, value: 45 }]);
    const other = compiledOf([{ ...START, value: 45 }], "2.0.0", scale);
    const { steps } = applyStandard(smallScreen, { standard: other, followed: own, profile: smallProfile });
    // −21 dB: mark 24 of the small unit.
    expect(steps).toMatchObject([{ outcome: "taken", screen: 45, standard: 45, result: 24 }]);
  });

  it("hold limits by level, and give new presets the unit's mark", () => {
    const within: StandardLine = { place: "presets/*/faderMark", hold: "within", min: 40, max: 80 };
    const standard = compiledOf([within], "1.0.0", scale);
    const settle = unitSteps(smallScreen, smallProfile);
    const loud = edited(smallScreen, (draft) => {
      draft.presets[0].faderMark = 46;
    });
    const places = deviationsFrom(loud, standard, settle).map(({ path }) => path.join("/"));
    expect(places).toContain("presets/feature-51/faderMark");
    const item = { ...smallScreen.presets[0]!, id: "soft", slot: 8, label: "SOFT", faderMark: 80 };
    const { configuration } = applyStandard(smallScreen, {
      standard: compiledOf([{ place: "presets", hold: "at-least", items: [item] }], "1.0.0", scale),
      profile: smallProfile,
    });
    expect(configuration.presets.at(-1)).toMatchObject({ id: "soft", faderMark: 45 });
  });

  it("are off by so many marks of the unit's own scale", () => {
    const standard = compiledOf([START], "1.0.0", scale);
    const low = edited(smallScreen, (draft) => {
      draft.operation.faderMark = 40;
    });
    const job = new DriftJob(standard);
    job.add({ name: "lantern-mill/screen-4", configuration: low, profile: smallProfile });
    expect(job.result().findings).toMatchObject([{ off: { least: -5, greatest: -5 } }]);
  });

  it("without a stated scale are marks of each screen's own unit", () => {
    const standard = compiledOf([{ ...START, value: 45 }]);
    expect(deviationsFrom(smallScreen, standard, unitSteps(smallScreen, smallProfile))).toEqual([]);
  });
});
