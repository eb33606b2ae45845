import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inspectDocument, type Preset, type StandardLine } from "../../../src/model/index.ts";
import { validateConfiguration } from "../../../src/rules/index.ts";
import { runs } from "../../runs.ts";
import {
  expectAlignmentUntouched,
  expectDeviationsKnown,
  profileOf,
  proposed,
  settled,
} from "./fit-support.ts";
import { mediumScreen, smallScreen } from "./support.ts";

/*
 * What holds whatever a standard brings and whatever is answered: nothing that was measured changes, what comes out is valid
 * for the unit, nothing is lost without a word, and a second round has nothing to do. fast-check prints the seed of whatever
 * fails.
 */

const RUNS = runs(6, 40);

const screens = fc.constantFrom(smallScreen, mediumScreen);

const EQ_SETS = [
  {
    id: "house-a",
    label: "HOUSE A",
    channels: [
      { channelId: "L", parametric: [{ id: "a", kind: "peaking", frequencyHz: 1000, gainDb: 2.2, q: 1 }] },
    ],
  },
  {
    id: "house-b",
    label: "HOUSE B",
    channels: [{ channelId: "R", parametric: [{ id: "b", kind: "notch", frequencyHz: 120, q: 4 }] }],
  },
];

const slots = fc.integer({ min: 1, max: 12 });

/** A preset as a standard brings it: what it needs may or may not be there. */
const newPreset = fc.record({
  id: fc.constantFrom("soft", "late", "quiet"),
  slot: slots,
  equalizationId: fc.constantFrom("feature", "house-a", "house-b", "nowhere"),
  sourceId: fc.constantFrom("dcp", "dcp", "nowhere"),
  levelDb: fc.integer({ min: -30, max: 20 }),
  label: fc.constantFrom("SOFT", "A name that is much too long for most units"),
});

const held = fc.record({ id: fc.constantFrom("feature-51", "trailers-51", "music"), slot: slots });

const automation = fc.record({
  id: fc.constantFrom("call-a", "call-b", "call-c"),
  label: fc.constant("CALL"),
  // Some are taken on the screen, some become the same on it.
  trigger: fc.constantFrom(
    { kind: "contact", connectorId: "contact-01", edge: "closing" },
    { kind: "network", interfaceId: "lan", text: "CALL" },
    { kind: "network", interfaceId: "control", text: "CALL" },
    { kind: "network", interfaceId: "control", text: "show 2" },
    { kind: "serial", connectorId: "com-01", text: "SHOW 1" },
    { kind: "serial", connectorId: "rs232-01", text: "SHOW 1" },
  ),
  action: fc.record({
    kind: fc.constant("recall-preset"),
    presetId: fc.constantFrom("soft", "feature-51", "nowhere"),
  }),
});

/** Each id, slot and trigger once: a standard that says otherwise is refused when it is read. */
function different<Item extends { readonly id: string; readonly slot?: number; readonly trigger?: object }>(
  items: readonly Item[],
): readonly Item[] {
  const isFirst = (item: Item, index: number, part: (item: Item) => unknown) =>
    part(item) === undefined ||
    items.findIndex((other) => isDeepStrictEqual(part(other), part(item))) === index;
  return items.filter(
    (item, index) =>
      isFirst(item, index, ({ id }) => id) &&
      isFirst(item, index, ({ slot }) => slot) &&
      isFirst(item, index, ({ trigger }) => trigger),
  );
}

const standards = fc
  .record({
    presets: fc.array(fc.oneof(newPreset, held), { maxLength: 5 }),
    hold: fc.constantFrom("at-least" as const, "these-only" as const),
    sets: fc.subarray(EQ_SETS),
    automation: fc.array(automation, { maxLength: 3 }),
  })
  .map(
    ({ presets, hold, sets, automation: items }) =>
      (base: typeof smallScreen): readonly StandardLine[] => {
        const feature = base.presets.find(({ id }) => id === "feature-51") as Preset;
        const wanted = different(presets as readonly { readonly id: string; readonly slot: number }[]).map(
          (item) => ("levelDb" in item ? { ...feature, ...item } : item),
        );
        return [
          { place: "equalizations", hold: "at-least", items: sets as never },
          ...(wanted.length > 0 ? [{ place: "presets", hold, items: wanted as never } as StandardLine] : []),
          {
            place: "automation",
            hold: "at-least",
            // A standard that names a preset which it forbids is refused when it is read.
            items: different(items).filter(
              ({ action }) => hold === "at-least" || wanted.some(({ id }) => id === action.presetId),
            ) as never,
          },
        ];
      },
  );

const picks = fc.array(fc.nat({ max: 20 }), { minLength: 5, maxLength: 5 });

describe("laws of fitting", () => {
  it("whatever is answered: the questions end, nothing measured changes, the unit can have it", () => {
    fc.assert(
      fc.property(screens, standards, picks, (screen, linesOf, numbers) => {
        const { proposal, configuration } = settled(screen, linesOf(screen), numbers);
        expect(["proposed", "follows"]).toContain(proposal.outcome);
        expectDeviationsKnown({ proposal, configuration: configuration ?? screen }, linesOf(screen));
        if (configuration === undefined) return;
        expectAlignmentUntouched(screen, configuration);
        expect(inspectDocument(JSON.stringify(configuration)).shape.problems).toEqual([]);
        const errors = validateConfiguration(configuration, { profile: profileOf(screen) }).filter(
          ({ severity }) => severity === "error",
        );
        expect(errors).toEqual([]);
      }),
      { numRuns: RUNS },
    );
  });

  it("whatever is answered: what is not there in the end was told", () => {
    fc.assert(
      fc.property(screens, standards, picks, (screen, linesOf, numbers) => {
        const { proposal, configuration = screen } = settled(screen, linesOf(screen), numbers);
        for (const list of ["presets", "automation", "sources", "equalizations"] as const) {
          const there = new Set(configuration[list].map(({ id }) => id));
          for (const { id } of screen[list].filter((item) => !there.has(item.id))) {
            const told = [...proposal.fitting, ...proposal.steps].map(({ place }) => place);
            expect(told).toContain(`${list}/${id}`);
          }
        }
      }),
      { numRuns: RUNS },
    );
  });

  it("a second round has nothing to do", () => {
    fc.assert(
      fc.property(screens, standards, picks, (screen, linesOf, numbers) => {
        const lines = linesOf(screen);
        const { configuration = screen } = settled(screen, lines, numbers);
        const again = proposed(configuration, lines, { followed: lines });
        expect(again.proposal.outcome).toBe("follows");
        expect(again.proposal.questions).toEqual([]);
      }),
      { numRuns: RUNS },
    );
  });
});
