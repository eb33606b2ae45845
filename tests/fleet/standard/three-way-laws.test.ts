import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { threeWay } from "../../../src/diff/changes/index.ts";
import { applyStandard, deviationsFrom, unitSteps } from "../../../src/fleet/standard/index.ts";
import { type Configuration, type StandardLine, valueAt } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { profileOf } from "./fit-support.ts";
import { compiledOf, edited, largeScreen, mediumScreen, smallScreen } from "./support.ts";

/*
 * The algebra of three ways over random screens and random standards, held against the three-way comparison of whole
 * documents, which knows nothing of standards: what the version last followed says is the base, the screen is the one side,
 * what the new version says the other. fast-check prints the seed of whatever fails.
 */

const RUNS = runs(20, 100);

/** Values on every unit's steps, few enough that both sides often choose the same. */
const LEVELS = fc.constantFrom(-6, -4, -2, 0, 2);
const DELAYS = fc.constantFrom(0, 5, 10);
const DUCKS = fc.constantFrom(12, 18, 24);
const LABELS = fc.constantFrom("A", "B", "C");

type Places = Readonly<Record<string, string | number>>;

/** Values for some of the places that the house owns, in a screen. */
function valuesIn({ presets, automation }: Configuration): fc.Arbitrary<Places> {
  const all: Readonly<Record<string, fc.Arbitrary<string | number>>> = {
    ...Object.fromEntries(
      presets.flatMap(({ id }) => [
        [`presets/${id}/levelDb`, LEVELS],
        [`presets/${id}/delayMs`, DELAYS],
        [`presets/${id}/label`, LABELS],
      ]),
    ),
    ...Object.fromEntries(automation.map(({ id }) => [`automation/${id}/label`, LABELS])),
    "operation/paging/programDuckDb": DUCKS,
  };
  return fc
    .subarray(Object.keys(all), { minLength: 1, maxLength: 14 })
    .chain((chosen) => fc.record(Object.fromEntries(chosen.map((place) => [place, all[place]!]))));
}

function withValues(screen: Configuration, values: Places): Configuration {
  return edited(screen, (draft) => {
    for (const [place, value] of Object.entries(values)) {
      const parts = place.split("/");
      const item =
        parts.length === 3 && Array.isArray(draft[parts[0]!])
          ? draft[parts[0]!].find(({ id }: { id: string }) => id === parts[1])
          : draft[parts[0]!][parts[1]!];
      item[parts[2]!] = value;
    }
  });
}

/** Lines that hold these places as a document has them. */
function linesOf(document: Configuration, places: readonly string[]): readonly StandardLine[] {
  return places.map((place) => ({
    place,
    hold: "exactly",
    value: valueAt(document, place.split("/")) as string | number,
  }));
}

/** A screen, its own changes, and a new version's changes, all of one class. */
const histories = fc.constantFrom(largeScreen, mediumScreen, smallScreen).chain((screen) =>
  fc.record({
    base: valuesIn(screen).map((values) => withValues(screen, values)),
    own: valuesIn(screen),
    house: valuesIn(screen),
    house2: valuesIn(screen),
    untouched: valuesIn(screen),
  }),
);

/** The version last followed and the new one, which hold the same places. */
function versions(base: Configuration, house: Places, more: Places) {
  const places = [...new Set([...Object.keys(house), ...Object.keys(more)])];
  const wanted = withValues(base, house);
  return {
    wanted,
    followed: compiledOf(linesOf(base, places), "1.0.0"),
    standard: compiledOf(linesOf(wanted, places), "2.0.0"),
  };
}

describe("applying a standard, against the three-way comparison of whole documents", () => {
  it("takes what only the standard changed, keeps what only the screen changed, asks where they meet", () => {
    fc.assert(
      fc.property(histories, ({ base, own, house, untouched }) => {
        const { wanted, followed, standard } = versions(base, house, untouched);
        const local = withValues(base, own);
        const { configuration, steps } = applyStandard(local, { standard, followed });
        const compared = threeWay(base, local, wanted);
        const at = (outcome: string) =>
          steps.filter((step) => step.outcome === outcome).map(({ place }) => place);
        const names = (list: readonly { readonly path: readonly string[] }[]) =>
          list.map(({ path }) => path.join("/"));
        expect(at("taken").sort()).toEqual(names(compared.right).sort());
        expect(at("asks").sort()).toEqual(names(compared.conflicts).sort());
        for (const place of at("kept")) expect(names(compared.left)).toContain(place);
        for (const place of at("asks")) {
          const step = steps.find((item) => item.place === place)!;
          const parts = place.split("/");
          expect([step.screen, step.standard]).toEqual([valueAt(local, parts), valueAt(wanted, parts)]);
        }
        // The merged document: the screen's, with just what only the standard changed.
        const merged = Object.fromEntries(
          compared.right.map(({ path }) => [path.join("/"), valueAt(wanted, path) as string | number]),
        );
        expect(configuration).toEqual(withValues(local, merged));
      }),
      { numRuns: RUNS },
    );
  });

  it("of a screen as it last followed gives the standard; of an unchanged standard gives the screen", () => {
    fc.assert(
      fc.property(histories, ({ base, own, house, untouched }) => {
        const { wanted, followed, standard } = versions(base, house, untouched);
        expect(applyStandard(base, { standard, followed }).configuration).toEqual(wanted);
        const local = withValues(base, own);
        expect(applyStandard(local, { standard: followed, followed }).configuration).toBe(local);
      }),
      { numRuns: RUNS },
    );
  });

  it("in two versions, one after the other or at once, comes out the same", () => {
    fc.assert(
      fc.property(histories, ({ base, house, house2, untouched }) => {
        const places = Object.keys({ ...house, ...house2, ...untouched });
        const documents = [
          base,
          withValues(base, house),
          withValues(withValues(base, house), house2),
        ] as const;
        const [v1, v2, v3] = documents.map((document) => compiledOf(linesOf(document, places)));
        const second = applyStandard(base, { standard: v2!, followed: v1! }).configuration;
        const third = applyStandard(second, { standard: v3!, followed: v2! }).configuration;
        expect(third).toEqual(applyStandard(base, { standard: v3!, followed: v1! }).configuration);
        expect(third).toEqual(documents[2]);
      }),
      { numRuns: RUNS },
    );
  });

  it("of changes that do not meet, in either order, comes out the same, whatever the screen changed", () => {
    fc.assert(
      fc.property(histories, ({ base, own, house, house2 }) => {
        const rest = Object.fromEntries(
          Object.entries(house2).filter(([place]) => !Object.hasOwn(house, place)),
        );
        const local = withValues(base, own);
        const go = (screen: Configuration, changes: Places) => {
          const { standard, followed } = versions(base, changes, {});
          return applyStandard(screen, { standard, followed }).configuration;
        };
        const both = go(local, { ...house, ...rest });
        expect(go(go(local, house), rest)).toEqual(both);
        expect(go(go(local, rest), house)).toEqual(both);
      }),
      { numRuns: RUNS },
    );
  });

  it("twice changes nothing more, and decided for the standard leaves nothing to differ", () => {
    fc.assert(
      fc.property(histories, ({ base, own, house, untouched }) => {
        const { followed, standard } = versions(base, house, untouched);
        const local = withValues(base, own);
        const profile = profileOf(local);
        const decisions = {
          kind: "boothkeep.standard-decisions" as const,
          schemaVersion: "1.0.0",
          standardId: "house",
          toVersion: "2.0.0",
          answers: [{ place: "*/*/*", choose: "standard" }],
        };
        const once = applyStandard(local, { standard, followed, profile, decisions });
        expect(
          applyStandard(once.configuration, { standard, followed, profile, decisions }).configuration,
        ).toEqual(once.configuration);
        const left = deviationsFrom(once.configuration, standard, unitSteps(local, profile)).map(({ path }) =>
          path.join("/"),
        );
        const kept = once.steps.filter(({ outcome }) => outcome === "kept").map(({ place }) => place);
        expect(left.sort()).toEqual(kept.sort());
      }),
      { numRuns: RUNS },
    );
  });

  it("with limits: a screen inside stays, one that followed comes to the nearest limit, never beyond", () => {
    fc.assert(
      fc.property(
        histories,
        fc.tuple(LEVELS, LEVELS).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const),
        ({ base }, [min, max]) => {
          const followed = compiledOf([{ place: "presets/*/levelDb", hold: "within", min: -100, max: 100 }]);
          const standard = compiledOf([{ place: "presets/*/levelDb", hold: "within", min, max }]);
          const { configuration } = applyStandard(base, { standard, followed });
          for (const { id, levelDb } of base.presets) {
            const now = valueAt(configuration, ["presets", id, "levelDb"]);
            expect(now).toBe(Math.min(Math.max(levelDb, min), max));
          }
        },
      ),
      { numRuns: RUNS },
    );
  });
});
