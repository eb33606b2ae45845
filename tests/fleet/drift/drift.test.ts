import { describe, expect, it } from "vitest";
import { DriftGroups, deviationsSince, type Snapshot } from "../../../src/fleet/drift/index.ts";
import { TwinFinder } from "../../../src/fleet/likeness/index.ts";
import {
  Census,
  compileStandard,
  deriveStandard,
  deviationsFrom,
  isForScreen,
  unitSteps,
} from "../../../src/fleet/standard/index.ts";
import { readDocument } from "../../../src/model/index.ts";
import { derivedReport, renderText } from "../../../src/report/index.ts";
import { expectGolden } from "../../report/golden.ts";
import { compiledOf, edited, largeScreen, preset, smallScreen, standardOf } from "../standard/support.ts";

const settle = unitSteps(largeScreen, undefined);
const LEVEL = "presets/trailers-71/levelDb";
const standard = compiledOf([
  { place: LEVEL, hold: "exactly", value: -3.5, reason: "Agreed with the exhibitor." },
  { place: "presets/*/delayMs", hold: "within", min: 0, max: 60 },
]);

const louder = (levelDb: number) =>
  edited(largeScreen, (draft) => {
    preset(draft, "trailers-71").levelDb = levelDb;
  });

describe("drift", () => {
  it("tells one deviation of 300 screens in one finding, with how far off they are", () => {
    const groups = new DriftGroups();
    for (let index = 0; index < 300; index += 1) {
      const screen = louder(index % 3 === 0 ? 0 : -1);
      const deviations = deviationsFrom(screen, standard, settle);
      groups.add(
        `site/screen-${index}`,
        screen,
        deviations.map((deviation) => ({ deviation, since: undefined })),
      );
    }
    const findings = groups.findings();
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      code: "standard/other-value",
      kind: "sound",
      severity: "warning",
      place: LEVEL,
      label: "preset level",
      unit: "dB",
      owner: "house",
      standard: -3.5,
      reason: "Agreed with the exhibitor.",
      off: { least: 2.5, median: 2.5, greatest: 3.5 },
    });
    expect(findings[0]!.screens).toHaveLength(300);
  });

  it("says since which entry, and by whom", () => {
    const snapshot = (number: number, levelDb: number, recordedBy: string): Snapshot => ({
      entryId: `entry-${number}`,
      number,
      recordedAt: `2026-0${number}-01T09:00:00Z`,
      recordedBy,
      reason: "routine",
      sha256: String(levelDb),
      read: () => louder(levelDb),
    });
    const history = [
      snapshot(1, 0, "Alignment team"),
      snapshot(2, -3.5, "House team"),
      snapshot(3, -1, "Projection"),
      snapshot(4, -1, "Service team"),
      snapshot(5, 0, "Service team"),
    ];
    const latest = louder(0);
    const deviations = deviationsFrom(latest, standard, settle);
    const since = deviationsSince(history, deviations, settle);
    expect(since.get(`value:${LEVEL}`)).toMatchObject({
      number: 3,
      recordedBy: "Projection",
      fromTheStart: false,
    });
    const always = deviationsSince(history.slice(2), deviations, settle);
    expect(always.get(`value:${LEVEL}`)).toMatchObject({ number: 3, fromTheStart: true });
  });

  it("is only looked for in screens that the standard is for", () => {
    const of = (screens: object) => ({ ...standardOf([]), screens });
    expect(isForScreen(of({}), largeScreen)).toBe(true);
    expect(isForScreen(of({ formats: ["7.1DS"], sites: ["lantern-*"] }), largeScreen)).toBe(true);
    expect(isForScreen(of({ formats: ["7.1DS"] }), smallScreen)).toBe(false);
    expect(isForScreen(of({ sites: ["*-heron"] }), largeScreen)).toBe(false);
    expect(isForScreen(of({ profileIds: ["dunlin-16"] }), smallScreen)).toBe(true);
    expect(isForScreen(of({ drives: ["passive"] }), largeScreen)).toBe(false);
  });
});

/** Twenty screens that share nearly everything. */
function fleet() {
  return Array.from({ length: 20 }, (_, index) =>
    edited(largeScreen, (draft) => {
      draft.screen.screenId = `screen-${index + 1}`;
      preset(draft, "trailers-71").levelDb = index === 6 ? 1 : -4;
      preset(draft, "music").delayMs = 20 + (index % 5);
      if (index === 11) preset(draft, "music").delayMs = 95;
      preset(draft, "relaxed").levelDb = -20 + index * 2;
      preset(draft, "event-51").label = ["EVENT", "OPERA", "STAGE", "SPORT"][index % 4];
      if (index === 3) draft.presets.push({ ...preset(draft, "music"), id: "organ", slot: 30 });
    }),
  );
}

describe("a derived standard", () => {
  const census = new Census();
  for (const screen of fleet()) census.add(screen, screen.screen.screenId);
  const { standard: derived, outliers } = deriveStandard(census, {
    id: "derived",
    title: "Derived",
    issuedOn: "2026-11-01",
    issuedBy: "Sound team",
    screens: { formats: ["7.1DS"] },
  });
  const line = (place: string) => derived.lines.find((item) => item.place === place);

  it("holds no limits on numbers that are names, nor on marks of several scales", () => {
    const mixed = new Census();
    for (const [index, screen] of fleet().entries()) {
      const own = edited(screen, (draft) => {
        preset(draft, "relaxed").slot = 30 + (index % 4);
        preset(draft, "relaxed").faderMark = 60 + (index % 4);
        if (index % 2 === 0) draft.unit.profileId = "another";
      });
      mixed.add(own, own.screen.screenId);
    }
    const options = { id: "a", title: "A", issuedOn: "2026-11-01", issuedBy: "Sound team", screens: {} };
    const { lines } = deriveStandard(mixed, options).standard;
    const hold = (place: string) => lines.find((item) => item.place === place);
    expect(hold("presets/relaxed/slot")).toMatchObject({ hold: "left-to-screen" });
    expect(hold("presets/relaxed/faderMark")).toMatchObject({
      hold: "left-to-screen",
      reason: expect.stringContaining("fader scale"),
    });
    expect(hold("presets/music/delayMs")).toMatchObject({ hold: "within" });
  });

  it("never has two presets in one slot, though most screens have each of them there", () => {
    const apart = new Census();
    for (const [index, screen] of fleet().entries()) {
      const own = edited(screen, (draft) => {
        const gone = index < 9 ? ["relaxed"] : index > 10 ? ["music"] : [];
        draft.presets = draft.presets.filter(({ id }: { id: string }) => !gone.includes(id));
        for (const item of draft.presets) if (["relaxed", "music"].includes(item.id)) item.slot = 40;
      });
      apart.add(own, own.screen.screenId);
    }
    const options = { id: "a", title: "A", issuedOn: "2026-11-01", issuedBy: "Sound team", screens: {} };
    const { standard: made } = deriveStandard(apart, { ...options, share: 0.52 });
    expect(() => compileStandard(made)).not.toThrow();
  });

  it("holds what nearly all share and names the outliers", () => {
    const presets = line("presets");
    expect(presets).toMatchObject({ hold: "these-only" });
    const items = (presets as { readonly items: readonly Record<string, unknown>[] }).items;
    expect(items.find(({ id }) => id === "trailers-71")).toMatchObject({ levelDb: -4 });
    expect(items.map(({ id }) => id)).not.toContain("organ");
    expect(outliers).toContainEqual({
      place: LEVEL,
      field: "presets[].levelDb",
      usual: -4,
      others: [{ value: 1, count: 1, screens: ["screen-7"] }],
    });
    expect(outliers.find(({ place }) => place === "presets")).toBeUndefined();
  });

  it("holds close numbers within limits, without the outlier", () => {
    expect(line("presets/music/delayMs")).toMatchObject({ hold: "within", min: 20, max: 24 });
    expect(outliers.find(({ place }) => place === "presets/music/delayMs")).toMatchObject({
      usual: [20, 24],
      others: [{ value: 95, screens: ["screen-12"] }],
    });
  });

  it("leaves what differs to the screen, with the reason", () => {
    expect(line("presets/event-51/label")).toMatchObject({
      hold: "left-to-screen",
      reason: "Screens differ: 4 values, the most frequent one at 25 % of 20.",
    });
  });

  it("is told with the screens that do not fit in, and the places at which screens differ", () => {
    const report = derivedReport({ standard: derived, outliers, screens: census.screens });
    expectGolden("standard/derived.txt", renderText(report));
  });

  it("can be read, and is followed by all but the outliers", () => {
    const text = JSON.stringify(derived);
    expect(readDocument(text, { expect: "boothkeep.standard" }).document).toEqual(derived);
    const compiled = compileStandard(derived);
    const off = fleet().flatMap((screen) =>
      deviationsFrom(screen, compiled, settle).map(
        ({ path }) => `${screen.screen.screenId} ${path.join("/")}`,
      ),
    );
    expect(off).toEqual([
      "screen-4 presets/organ",
      "screen-7 presets/trailers-71/levelDb",
      "screen-12 presets/music/delayMs",
    ]);
  });
});

describe("twins", () => {
  it("name the odd one out, and only where the others agree", () => {
    const finder = new TwinFinder();
    for (const screen of fleet()) finder.add(screen, screen.screen.screenId);
    finder.add(smallScreen, "alone");
    const [group, alone] = finder.groups();
    expect(group).toMatchObject({ format: "7.1DS", profileId: "skarn-30", screens: 20 });
    expect(group!.odd.map(({ place, others }) => [place, others.flatMap(({ screens }) => screens)])).toEqual([
      [LEVEL, ["screen-7"]],
      ["presets", ["screen-4"]],
    ]);
    expect(alone!.odd).toEqual([]);
  });
});
