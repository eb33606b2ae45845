import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Configuration, FIELDS, inspectDocument, type StandardLine } from "../../../src/model/index.ts";
import { validateConfiguration } from "../../../src/rules/index.ts";
import { runs } from "../../runs.ts";
import {
  expectAlignmentUntouched,
  expectDeviationsKnown,
  profileOf,
  proposed,
  settled,
} from "./fit-support.ts";
import { compiledOf, type Draft, edited, largeScreen, mediumScreen, smallScreen } from "./support.ts";

/*
 * Standards as people make them from what one screen has, brought to a screen with another unit, other sources, other
 * channels and other habits: parts of any list, single values of any place that the house owns, in any mixture. fast-check
 * prints the seed of whatever fails.
 */

const RUNS = runs(6, 40);

const SCREENS = [largeScreen, mediumScreen, smallScreen];

const TRIGGERS = [
  { kind: "contact", connectorId: "contact-01", edge: "closing" },
  { kind: "network", interfaceId: "lan", text: "CALL" },
  { kind: "serial", connectorId: "com-01", text: "SHOW 1" },
];
const ACTIONS = [
  { kind: "mute" },
  { kind: "set-fader", faderMark: 70 },
  { kind: "select-source", sourceId: "disc" },
  { kind: "recall-preset", presetId: "music" },
];

/** Numbers that pick, as many as are asked for. */
type Pick = (below: number) => number;

/** A screen of which parts are otherwise: what a standard is made from need not be valid anywhere. */
function habitsOf(base: Configuration, pick: Pick): Configuration {
  return edited(base, (draft) => {
    for (const name of ["nonSync", "paging", "startPresetId", "hearingImpaired"])
      if (pick(4) === 0) delete draft.operation[name];
    for (const item of draft.automation) {
      if (pick(8) === 0) item.trigger = { ...TRIGGERS[pick(3)] };
      if (pick(8) === 0) item.action = { ...ACTIONS[pick(4)] };
    }
    const keep = (list: readonly Draft[]) => (pick(4) === 0 ? list.filter(() => pick(3) > 0) : list);
    draft.presets = keep(draft.presets);
    draft.sources = keep(draft.sources);
    if (pick(4) === 0) for (const preset of draft.presets) preset.slot += 1;
  });
}

/** A screen that lacks this and that, and is valid for its unit. */
function screenOf(base: Configuration, pick: Pick): Configuration {
  return edited(base, (draft) => {
    for (const name of ["nonSync", "paging", "startPresetId", "boothMonitor"])
      if (pick(3) === 0) delete draft.operation[name];
    draft.automation = draft.automation.filter(() => pick(4) > 0);
    for (const { trigger } of draft.automation) if (pick(6) === 0 && trigger.text) trigger.text += "x";
  });
}

const LISTS = ["sources", "presets", "automation", "equalizations", "channels"] as const;
const LEAVES = FIELDS.filter(({ path, owner }) => owner === "house" && !/\.(id|channelId)$/.test(path));

function linesFrom(from: Configuration, pick: Pick): readonly StandardLine[] {
  return Array.from({ length: 1 + pick(4) }).flatMap((): readonly StandardLine[] => {
    if (pick(3) === 0) {
      const place = LISTS[pick(LISTS.length)]!;
      const items = (from[place] as readonly object[]).filter(() => pick(3) === 0);
      const hold = pick(2) === 0 ? "at-least" : "these-only";
      return [{ place, hold, items: items as never }];
    }
    const { path } = LEAVES[pick(LEAVES.length)]!;
    const places = placesIn(from, path);
    if (places.length === 0) return [];
    const { place, value } = places[pick(places.length)]!;
    return [{ place, hold: "exactly", value: value ?? null }];
  });
}

/** Every place of a field, by ids, with what stands there. */
function placesIn(
  document: Draft,
  field: string,
): readonly { readonly place: string; readonly value: Draft }[] {
  let open: readonly { readonly place: string; readonly value: Draft }[] = [{ place: "", value: document }];
  for (const step of field.replaceAll("[]", ".[]").split(".")) {
    open = open.flatMap(({ place, value }) => {
      const at = (key: string) => (place === "" ? key : `${place}/${key}`);
      if (step !== "[]") return value === undefined ? [] : [{ place: at(step), value: value[step] }];
      return (value ?? []).map((item: Draft) => ({ place: at(item.id ?? item.channelId), value: item }));
    });
  }
  return open;
}

const cases = fc
  .record({
    from: fc.constantFrom(...SCREENS),
    to: fc.constantFrom(...SCREENS),
    numbers: fc.array(fc.nat({ max: 10_000 }), { minLength: 400, maxLength: 400 }),
    picks: fc.array(fc.nat({ max: 20 }), { minLength: 5, maxLength: 5 }),
  })
  .map(({ from, to, numbers, picks }) => {
    let at = 0;
    const pick: Pick = (below) => numbers[at++ % numbers.length]! % below;
    const screen = screenOf(to, pick);
    return { screen, lines: linesFrom(habitsOf(from, pick), pick), picks };
  })
  // A standard that contradicts itself is refused when it is read; that is tried elsewhere.
  .filter(({ lines }) => isRead(lines));

function isRead(lines: readonly StandardLine[]): boolean {
  try {
    compiledOf(lines);
    return true;
  } catch {
    return false;
  }
}

function errorsOf(configuration: Configuration) {
  return validateConfiguration(configuration, { profile: profileOf(configuration) }).filter(
    ({ severity }) => severity === "error",
  );
}

describe("what one screen has, as a standard for another", () => {
  it("ends in a proposal that the unit can have, with nothing measured changed, and a second round has nothing to do", () => {
    fc.assert(
      fc.property(cases, ({ screen, lines, picks }) => {
        expect(errorsOf(screen)).toEqual([]);
        const { proposal, configuration } = settled(screen, lines, picks);
        expect(["proposed", "follows"]).toContain(proposal.outcome);
        for (const { question, options } of proposal.questions) {
          expect(question).not.toMatch(/ {2}|undefined|here\. $/);
          expect(options.length).toBeGreaterThan(0);
        }
        expectDeviationsKnown({ proposal, configuration: configuration ?? screen }, lines);
        if (configuration === undefined) return;
        expectAlignmentUntouched(screen, configuration);
        expect(inspectDocument(JSON.stringify(configuration)).shape.problems).toEqual([]);
        expect(errorsOf(configuration)).toEqual([]);
        const again = proposed(configuration, lines, { followed: lines });
        expect(again.proposal).toMatchObject({ outcome: "follows", questions: [] });
      }),
      { numRuns: RUNS },
    );
  });
});
