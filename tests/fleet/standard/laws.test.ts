import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changesBetween } from "../../../src/diff/changes/index.ts";
import { deviationsSince, keyOf, type Snapshot } from "../../../src/fleet/drift/index.ts";
import {
  applyStandard,
  compileStandard,
  deviationsFrom,
  unitSteps,
} from "../../../src/fleet/standard/index.ts";
import { type Configuration, type StandardLine, valueAt } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { compiledOf, largeScreen, standardOf } from "./support.ts";

/*
 * The algebra of three-way merging. fast-check prints the seed of whatever fails.
 */

/** Places that the house owns, with another value for each. */
const PLACES: readonly (readonly [place: string, other: fc.Arbitrary<string | number>])[] = [
  ...largeScreen.presets.flatMap(({ id }) => [
    [`presets/${id}/levelDb`, fc.integer({ min: -20, max: 5 })] as const,
    [`presets/${id}/delayMs`, fc.integer({ min: 0, max: 90 })] as const,
    [`presets/${id}/label`, fc.string({ minLength: 1, maxLength: 8 })] as const,
  ]),
  ...largeScreen.automation.map(
    ({ id }) => [`automation/${id}/label`, fc.string({ minLength: 1, maxLength: 8 })] as const,
  ),
  ["operation/faderMark", fc.integer({ min: 0, max: 100 })],
  ["operation/paging/programDuckDb", fc.integer({ min: 0, max: 40 })],
];

/** Lines that hold some places exactly. */
const lines: fc.Arbitrary<readonly StandardLine[]> = fc
  .subarray([...PLACES], { minLength: 1, maxLength: 12 })
  .chain((chosen) =>
    fc.tuple(
      ...chosen.map(([place, other]) => other.map((value) => ({ place, hold: "exactly", value }) as const)),
    ),
  );

/** Lists that hold presets, with some dropped and one new. */
const lists: fc.Arbitrary<StandardLine> = fc
  .record({
    kept: fc.subarray([...largeScreen.presets], { minLength: 1 }),
    added: fc.boolean(),
    hold: fc.constantFrom("these-only" as const, "at-least" as const),
  })
  .map(({ kept, added, hold }) => ({
    place: "presets",
    hold,
    items: [
      ...kept.map(({ id, slot }) => ({ id, slot })),
      ...(added ? [{ ...largeScreen.presets[0]!, id: "house-new", slot: 40 }] : []),
    ],
  }));

/** What a version of the standard said that the screen follows in every place of other lines. */
function followedBy(screen: Configuration, ofOther: readonly StandardLine[]) {
  return compiledOf(
    ofOther.map((line) => {
      if (line.hold === "exactly")
        return { ...line, value: valueAt(screen, line.place.split("/")) as string | number };
      return { ...line, hold: "these-only", items: screen.presets.map(({ id }) => ({ id })) } as StandardLine;
    }),
  );
}

const asItIs = unitSteps(largeScreen, undefined);

describe("laws of applying", () => {
  it("a screen that follows the last version gets the new one", () => {
    fc.assert(
      fc.property(lines, fc.option(lists, { nil: undefined }), (held, list) => {
        const wanted = list === undefined ? held : [list];
        const standard = compiledOf(wanted);
        const { configuration } = applyStandard(largeScreen, {
          standard,
          followed: followedBy(largeScreen, wanted),
        });
        expect(deviationsFrom(configuration, standard, asItIs)).toEqual([]);
      }),
      { numRuns: runs(30) },
    );
  });

  it("a standard that did not change changes no screen", () => {
    fc.assert(
      fc.property(lines, fc.option(lists, { nil: undefined }), (held, list) => {
        const standard = compiledOf(list === undefined ? held : [...held, list]);
        const { configuration, steps } = applyStandard(largeScreen, { standard, followed: standard });
        expect(configuration).toBe(largeScreen);
        expect(steps.every(({ outcome }) => outcome === "kept")).toBe(true);
      }),
      { numRuns: runs(30) },
    );
  });

  it("independent changes come out the same in either order", () => {
    fc.assert(
      fc.property(lines, lines, (first, second) => {
        const places = new Set(first.map(({ place }) => place));
        const other = second.filter(({ place }) => !places.has(place));
        const go = (screen: Configuration, wanted: readonly StandardLine[]) =>
          applyStandard(screen, { standard: compiledOf(wanted), followed: followedBy(screen, wanted) })
            .configuration;
        expect(go(go(largeScreen, first), other)).toEqual(go(go(largeScreen, other), first));
        expect(go(largeScreen, [...first, ...other])).toEqual(go(go(largeScreen, first), other));
      }),
      { numRuns: runs(20) },
    );
  });

  it("applying twice changes nothing more", () => {
    fc.assert(
      fc.property(lines, lists, fc.boolean(), (held, list, wasFollowed) => {
        const wanted = [list, ...held];
        const standard = compiledOf(wanted);
        const options = { standard, ...(wasFollowed && { followed: followedBy(largeScreen, held) }) };
        const once = applyStandard(largeScreen, options).configuration;
        expect(applyStandard(once, options).configuration).toEqual(once);
        expect(applyStandard(once, { standard, followed: standard }).configuration).toEqual(once);
      }),
      { numRuns: runs(20) },
    );
  });

  it("changes just the places that it announced", () => {
    fc.assert(
      fc.property(lines, lists, fc.boolean(), (held, list, wasFollowed) => {
        const wanted = [list, ...held];
        const before = structuredClone(largeScreen);
        const { configuration, steps } = applyStandard(largeScreen, {
          standard: compileStandard(standardOf(wanted)),
          ...(wasFollowed && { followed: followedBy(largeScreen, held) }),
        });
        const announced = new Set(
          steps.filter(({ outcome }) => outcome === "taken").map(({ place }) => place),
        );
        const { changes, renames } = changesBetween(largeScreen, configuration, { identity: "literal" });
        expect(new Set(changes.map(({ path }) => path.join("/")))).toEqual(announced);
        expect(renames).toEqual([]);
        expect(largeScreen).toEqual(before);
      }),
      { numRuns: runs(30) },
    );
  });
});

describe("since when a screen is off a standard", () => {
  /** A screen somewhere in its history: some presets gone, some values other. */
  const visit = fc
    .record({
      kept: fc.subarray([...largeScreen.presets], { minLength: 1 }),
      levels: fc.array(fc.integer({ min: -2, max: 0 }), { minLength: 3, maxLength: 3 }),
      paged: fc.boolean(),
    })
    .map(({ kept, levels, paged }) => {
      const presets = kept.map((item, index) => ({ ...item, levelDb: levels[index % 3]!, delayMs: 0 }));
      const { paging: _paging, ...operation } = largeScreen.operation;
      return {
        ...largeScreen,
        presets,
        ...(!paged && { operation }),
      } as Configuration;
    });
  const held = compiledOf([
    { place: "presets/*/levelDb", hold: "exactly", value: -1 },
    { place: "operation/paging/programDuckDb", hold: "exactly", value: 13 },
    {
      place: "presets",
      hold: "these-only",
      items: largeScreen.presets.slice(0, 3).map(({ id, slot }) => ({ id, slot })),
    },
  ]);
  const settle = unitSteps(largeScreen, undefined);

  it("is what looking through every configuration in full tells", () => {
    fc.assert(
      fc.property(fc.array(visit, { minLength: 1, maxLength: 6 }), (history) => {
        const snapshots = history.map(
          (configuration, index): Snapshot => ({
            entryId: `entry-${index}`,
            number: index + 1,
            recordedAt: "2026-01-01T00:00:00Z",
            recordedBy: "Service team",
            reason: "routine",
            sha256: JSON.stringify(configuration),
            read: () => configuration,
          }),
        );
        const found = history.map((configuration) => deviationsFrom(configuration, held, settle));
        const since = deviationsSince(snapshots, found.at(-1)!, settle);
        for (const deviation of found.at(-1)!) {
          const key = keyOf(deviation);
          const without = found.findLastIndex((others) => !others.some((other) => keyOf(other) === key));
          expect(since.get(key)).toMatchObject({ number: without + 2, fromTheStart: without === -1 });
        }
        expect(since.size).toBe(found.at(-1)!.length);
      }),
    );
  });
});
