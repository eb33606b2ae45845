import { describe, expect, it } from "vitest";
import { changesBetween } from "../../../src/diff/changes/index.ts";
import { applyStandard } from "../../../src/fleet/standard/index.ts";
import type { StandardDecisions, StandardLine } from "../../../src/model/index.ts";
import {
  compiledOf,
  edited,
  largeProfile,
  largeScreen,
  preset,
  smallProfile,
  smallScreen,
} from "./support.ts";

/*
 * Little histories: the version last followed, the new one, the screen; then what becomes of each place. The table is that
 * of any three-way merge: where one side alone changed it wins, where both did somebody is asked.
 */

const LEVEL = "presets/trailers-71/levelDb";
const exactly = (place: string, value: string | number | boolean | null): StandardLine => ({
  place,
  hold: "exactly",
  value,
});

function answers(...given: StandardDecisions["answers"]): StandardDecisions {
  return {
    kind: "boothkeep.standard-decisions",
    schemaVersion: "1.0.0",
    standardId: "house",
    toVersion: "2.0.0",
    answers: given,
  };
}

/** The sample has −3.5 dB for its trailers. */
const followed = compiledOf([exactly(LEVEL, -3.5)]);

describe("one value", () => {
  it("is taken where only the standard changed", () => {
    const { configuration, steps } = applyStandard(largeScreen, {
      standard: compiledOf([exactly(LEVEL, -4)]),
      followed,
    });
    expect(preset(configuration, "trailers-71").levelDb).toBe(-4);
    expect(steps).toMatchObject([{ place: LEVEL, outcome: "taken", screen: -3.5, standard: -4, result: -4 }]);
    expect(changesBetween(largeScreen, configuration).changes).toMatchObject([
      { field: "presets[].levelDb", before: -3.5, after: -4 },
    ]);
  });

  it("stays where only the screen changed", () => {
    const local = edited(largeScreen, (draft) => {
      preset(draft, "trailers-71").levelDb = -6;
    });
    const { configuration, steps } = applyStandard(local, { standard: followed, followed });
    expect(configuration).toBe(local);
    expect(steps).toMatchObject([{ outcome: "kept", screen: -6, standard: -3.5, result: -6 }]);
  });

  it("is asked about, with both sides, where both changed", () => {
    const local = edited(largeScreen, (draft) => {
      preset(draft, "trailers-71").levelDb = -6;
    });
    const { configuration, steps } = applyStandard(local, {
      standard: compiledOf([exactly(LEVEL, -4)]),
      followed,
    });
    expect(configuration).toBe(local);
    expect(steps).toMatchObject([{ outcome: "asks", screen: -6, standard: -4, result: -6 }]);
  });

  it("is nothing to tell where both changed to the same", () => {
    const local = edited(largeScreen, (draft) => {
      preset(draft, "trailers-71").levelDb = -4;
    });
    expect(applyStandard(local, { standard: compiledOf([exactly(LEVEL, -4)]), followed }).steps).toEqual([]);
  });

  it("is asked about where the version before left it to the screen, or there was none", () => {
    const standard = compiledOf([exactly(LEVEL, -4)]);
    const left = compiledOf([{ place: LEVEL, hold: "left-to-screen" }]);
    for (const before of [left, compiledOf([]), undefined]) {
      expect(applyStandard(largeScreen, { standard, followed: before }).steps).toMatchObject([
        { outcome: "asks" },
      ]);
    }
  });

  it("goes as it was decided; an answer for one screen goes before one for all", () => {
    const standard = compiledOf([exactly(LEVEL, -4)]);
    const forAll = { place: "presets/*/levelDb", choose: "standard" as const };
    const forOne = {
      place: "presets/*/levelDb",
      screens: ["lantern-mill/screen-1"],
      choose: "screen" as const,
    };
    const taken = applyStandard(largeScreen, { standard, decisions: answers(forAll) });
    expect(taken).toMatchObject({ steps: [{ outcome: "taken", result: -4 }], answersUsed: [0] });
    const kept = applyStandard(largeScreen, { standard, decisions: answers(forOne, forAll) });
    expect(kept).toMatchObject({ steps: [{ outcome: "kept-by-decision", result: -3.5 }], answersUsed: [0] });
    const open = applyStandard(largeScreen, { standard, decisions: answers({ ...forAll, choose: null }) });
    expect(open.steps).toMatchObject([{ outcome: "asks" }]);
  });

  it("comes back into limits at the nearest one", () => {
    const within: StandardLine = { place: "presets/*/levelDb", hold: "within", min: -6, max: 1 };
    const before = compiledOf([{ ...within, min: -9, max: 3 }]);
    const { steps } = applyStandard(largeScreen, { standard: compiledOf([within]), followed: before });
    expect(steps.map(({ place, screen, result }) => [place, screen, result])).toEqual([
      ["presets/archive-mono/levelDb", 1.5, 1],
      ["presets/event-loud/levelDb", 2, 1],
      ["presets/music/levelDb", -8, -6],
    ]);
  });

  it("is left to a person where a measurement, the unit or the room decides", () => {
    const standard = compiledOf([exactly("channels/Lss/levelDb", -3), exactly("unit/firmware", "9.9.9")]);
    const before = compiledOf([
      exactly("channels/Lss/levelDb", largeScreen.channels.find(({ id }) => id === "Lss")!.levelDb),
    ]);
    const { configuration, steps } = applyStandard(largeScreen, { standard, followed: before });
    expect(configuration).toBe(largeScreen);
    expect(steps.map(({ outcome }) => outcome)).toEqual(["by-hand", "by-hand"]);
  });

  it("counts as more spelled out before less, and as left where a line says so", () => {
    const standard = compiledOf([
      { place: "presets/trailers-*/levelDb", hold: "left-to-screen" },
      exactly("presets/*/levelDb", 0),
      exactly("presets/trailers-51/levelDb", -9),
    ]);
    const { steps } = applyStandard(largeScreen, { standard });
    const places = steps.map(({ place }) => place);
    expect(places).toContain("presets/trailers-51/levelDb");
    expect(places).toContain("presets/relaxed/levelDb");
    expect(places).not.toContain("presets/trailers-71/levelDb");
  });

  it("may be something that must not stand there", () => {
    const standard = compiledOf([exactly("operation/paging/programDuckDb", null)]);
    const given = answers({ place: "operation/paging/programDuckDb", choose: "standard" });
    const { configuration } = applyStandard(largeScreen, { standard, decisions: given });
    expect(configuration.operation.paging).not.toHaveProperty("programDuckDb");
  });
});

describe("a list", () => {
  const music = largeScreen.presets.find(({ id }) => id === "music")!;
  const quiet = { ...music, id: "music-quiet", slot: 15, label: "QUIET MUSIC", levelDb: -12 };

  it("gets an item that is new in the standard", () => {
    const standard = compiledOf([{ place: "presets", hold: "at-least", items: [{ ...quiet }] }]);
    const { configuration, steps } = applyStandard(largeScreen, { standard, followed: compiledOf([]) });
    expect(configuration.presets.at(-1)).toEqual(quiet);
    expect(steps).toMatchObject([{ place: "presets/music-quiet", outcome: "taken", screen: null }]);
  });

  it("does not get back what the screen took away while the standard stayed", () => {
    const standard = compiledOf([{ place: "presets", hold: "at-least", items: [{ ...quiet }] }]);
    expect(applyStandard(largeScreen, { standard, followed: standard }).steps).toMatchObject([
      { outcome: "kept" },
    ]);
  });

  it("loses an item that the standard dropped, if the screen had it as the standard did", () => {
    const all = largeScreen.presets.map(({ id, levelDb }) => ({ id, levelDb }));
    const before = compiledOf([{ place: "presets", hold: "these-only", items: all }]);
    const standard = compiledOf([
      { place: "presets", hold: "these-only", items: all.filter(({ id }) => id !== "relaxed") },
    ]);
    const gone = applyStandard(largeScreen, { standard, followed: before });
    expect(gone.configuration.presets.map(({ id }) => id)).not.toContain("relaxed");
    const local = edited(largeScreen, (draft) => {
      preset(draft, "relaxed").levelDb = -7;
    });
    const asked = applyStandard(local, { standard, followed: before });
    expect(asked.steps).toMatchObject([{ place: "presets/relaxed", outcome: "asks" }]);
    expect(asked.configuration.presets.map(({ id }) => id)).toContain("relaxed");
  });

  it("keeps what the screen added to a list of these and no other", () => {
    const all = largeScreen.presets.map(({ id }) => ({ id }));
    const standard = compiledOf([{ place: "presets", hold: "these-only", items: all }]);
    const local = edited(largeScreen, (draft) => draft.presets.push(quiet));
    expect(applyStandard(local, { standard, followed: standard })).toMatchObject({
      configuration: local,
      steps: [{ place: "presets/music-quiet", outcome: "kept" }],
    });
    expect(applyStandard(local, { standard }).steps).toMatchObject([{ outcome: "asks" }]);
  });

  it("gives a new item what other lines say of it", () => {
    const { faderMark: _mark, ...item } = quiet;
    const standard = compiledOf([
      { place: "presets", hold: "at-least", items: [item] },
      exactly("presets/music-*/faderMark", 42),
    ]);
    const { configuration } = applyStandard(largeScreen, { standard });
    expect(preset(configuration, "music-quiet").faderMark).toBe(42);
    expect(applyStandard(configuration, { standard, followed: standard }).steps).toEqual([]);
  });
});

describe("the steps of the unit", () => {
  it("round what the standard says, and a rounded value follows it", () => {
    const standard = compiledOf([exactly("presets/music/levelDb", -6.3)]);
    const before = compiledOf([exactly("presets/music/levelDb", -6)]);
    const { configuration, steps } = applyStandard(smallScreen, {
      standard,
      followed: before,
      profile: smallProfile,
    });
    expect(steps).toMatchObject([{ outcome: "rounded", standard: -6.5, result: -6.5 }]);
    expect(applyStandard(configuration, { standard, followed: before, profile: smallProfile }).steps).toEqual(
      [],
    );
  });

  it("ask where the unit cannot come near", () => {
    const standard = compiledOf([exactly("presets/music/levelDb", -300)]);
    const before = compiledOf([
      exactly("presets/music/levelDb", largeScreen.presets.find(({ id }) => id === "music")!.levelDb),
    ]);
    const options = { standard, followed: before, profile: largeProfile };
    const [asked] = applyStandard(largeScreen, options).steps;
    expect(asked).toMatchObject({ outcome: "asks", standard: -300 });
    const given = answers({ place: "presets/*/levelDb", choose: "nearest" });
    const { configuration, steps } = applyStandard(largeScreen, { ...options, decisions: given });
    expect(steps).toMatchObject([{ outcome: "nearest", result: asked!.nearest }]);
    expect(preset(configuration, "music").levelDb).toBe(asked!.nearest);
  });

  it("ask about a name that is too long, with a shorter one", () => {
    const label = "FEATURE FILM SEVEN POINT ONE SURROUND OF THE HOUSE";
    const standard = compiledOf([exactly("presets/feature-71/label", label)]);
    const [step] = applyStandard(largeScreen, { standard, profile: largeProfile }).steps;
    expect(step!.outcome).toBe("asks");
    expect(String(step!.nearest).length).toBeLessThanOrEqual(largeProfile.labels.maxLength);
  });
});
